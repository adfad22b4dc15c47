/** A strict reader of the XML that figures use: elements, quoted attributes, text and five entities (XML 1.0, section 2). */

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** The text directly inside it. */
  readonly text: string;
}

const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const NAME = '[A-Za-z][\\w:.-]*';
const TOKEN = new RegExp(`<(${NAME})((?:\\s+${NAME}="[^"<]*")*)\\s*(/?)>|</(${NAME})>|([^<>]+)`, 'y');

/** The root element; throws where the text is not well formed. */
export function wellFormed(xml: string): Element {
  const top = { name: '', attributes: {}, children: [] as Element[], text: '' };
  const open = [top];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < xml.length) {
    const at = TOKEN.lastIndex;
    const token = TOKEN.exec(xml);
    if (token === null) throw new Error(`Not well formed at ${at}: ${xml.slice(at, at + 40)}`);
    const [, start, attributes, empty, end, text] = token;
    const parent = open.at(-1)!;
    if (start !== undefined) {
      const child = { name: start, attributes: attributesOf(attributes!), children: [], text: '' };
      parent.children.push(child);
      if (empty === '') open.push(child);
    } else if (end !== undefined) {
      if (parent.name !== end) throw new Error(`${end} closes ${parent.name}`);
      open.pop();
    } else {
      parent.text += decoded(text!);
    }
  }
  if (open.length !== 1 || top.children.length !== 1 || top.text.trim() !== '') throw new Error('Not one root element');
  return top.children[0]!;
}

function attributesOf(written: string): Record<string, string> {
  const all: Record<string, string> = {};
  for (const [, name, value] of written.matchAll(/([\w:.-]+)="([^"]*)"/g)) {
    if (name! in all) throw new Error(`${name} is given twice`);
    all[name!] = decoded(value!);
  }
  return all;
}

function decoded(text: string): string {
  // A lone surrogate or a control character makes the whole picture unreadable (XML 1.0, section 2.2).
  if (/[\x00-\x08\v\f\x0E-\x1F\uFFFE\uFFFF]|\p{Cs}/u.test(text)) throw new Error('A character XML does not have');
  return text.replace(/&([^;]*);?/g, (written, name: string) => {
    const character = written.endsWith(';') ? ENTITIES[name] : undefined;
    if (character === undefined) throw new Error(`No such entity: ${written}`);
    return character;
  });
}

export function everyElement(root: Element): Element[] {
  return [root, ...root.children.flatMap(everyElement)];
}
