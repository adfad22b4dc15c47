/** Elements and text as SVG and HTML take them: the one place where both are escaped. */
type Attributes = Readonly<Record<string, string | number>>;

/** An element as text. Children are elements already, or text that went through `markupText`. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${markupText(attributeText(value))}"`);
  const start = `<${name}${written.join('')}`;
  return children.length === 0 ? `${start}/>` : `${start}>${children.join('')}</${name}>`;
}

/** Places to a hundredth of a pixel. */
function attributeText(value: string | number): string {
  return typeof value === 'number' ? String(Math.round(value * 100) / 100) : value;
}

/** Markup escaped, characters that no XML document may hold (XML 1.0, section 2.2) as U+FFFD. */
export function markupText(text: string): string {
  return text
    .replace(/[\x00-\x08\v\f\x0E-\x1F\uFFFE\uFFFF\p{Cs}]/gu, '\uFFFD')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
