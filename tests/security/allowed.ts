/** What our pages and pictures are made of; anything else came out of a note. */
import { DOMParser, type Element, type Node } from '@xmldom/xmldom';

const EVERYWHERE = ['class', 'id'];
/** Elements with their attributes, besides those that any may have. */
const HTML: Readonly<Record<string, readonly string[]>> = {
  html: ['lang', 'xmlns'],
  head: [],
  meta: ['charset', 'name', 'content', 'http-equiv'],
  title: [],
  style: [],
  body: [],
  main: [],
  div: ['tabindex'],
  section: [],
  // Of Markdown itself; an address is looked at besides.
  ...Object.fromEntries(
    'h1 h2 h3 h4 h5 h6 p pre code em strong s small ul li blockquote hr br'.split(' ').map((name) => [name, []]),
  ),
  ol: ['start'],
  a: ['href', 'title'],
  img: ['src', 'alt', 'title'],
  span: ['title'],
  table: [],
  thead: [],
  tbody: [],
  tr: [],
  th: ['scope', 'data-column', 'style'],
  td: ['data-column', 'style'],
  figure: [],
  figcaption: [],
  details: [],
  summary: [],
};
const SVG: Readonly<Record<string, readonly string[]>> = {
  svg: [
    'xmlns',
    'viewBox',
    'width',
    'height',
    'role',
    'aria-labelledby',
    'aria-describedby',
    'font-family',
    'font-size',
  ],
  title: [],
  desc: [],
  defs: [],
  g: ['transform', 'fill', 'stroke'],
  pattern: ['width', 'height', 'patternUnits', 'patternTransform'],
  rect: ['x', 'y', 'width', 'height', 'rx', 'fill', 'stroke', 'stroke-width'],
  path: ['d', 'fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin'],
  line: ['x1', 'x2', 'y1', 'y2', 'fill', 'stroke', 'stroke-width', 'stroke-dasharray'],
  circle: ['cx', 'cy', 'r', 'fill', 'stroke', 'stroke-width'],
  text: ['x', 'y', 'fill', 'text-anchor', 'font-size', 'font-weight', 'dominant-baseline'],
  tspan: ['x', 'y', 'dx', 'dy'],
};
const SVG_VALUE = /^(?:url\(#[\w-]+\)|[^:<>&]*|http:\/\/www\.w3\.org\/2000\/svg)$/;
/** What a reader may follow from a page, and what a page may show. */
const ADDRESS = /^(?:https?:\/\/|mailto:|#|[^:]*$|[^:]*[/?#])/i;
const PICTURE = /^(?:https?:\/\/|data:image\/(?:gif|png|jpeg|webp);|[^:]*$|[^:]*[/?#])/i;

/** What stands in a document and should not; `html`: else it is a picture. */
export function strangers(text: string, kind: 'html' | 'svg'): readonly string[] {
  const wrong: string[] = [];
  const document = new DOMParser({
    onError: (level, message) => {
      // An HTML page leaves some elements open, which is only a warning.
      if (level !== 'warning') wrong.push(`${level}: ${message}`);
    },
  }).parseFromString(text, kind === 'html' ? 'text/html' : 'image/svg+xml');
  visit(document.documentElement!, kind === 'svg', wrong);
  return wrong;
}

function visit(element: Element, within: boolean, wrong: string[]): void {
  const { tagName } = element;
  const drawn = within || tagName === 'svg';
  const allowed = (drawn ? SVG : HTML)[tagName];
  if (!allowed) wrong.push(`<${tagName}>`);
  for (const { name, value } of Array.from(element.attributes)) {
    const known = EVERYWHERE.includes(name) || allowed?.includes(name);
    if (!known || !isHarmless(tagName, name, value, drawn)) wrong.push(`<${tagName} ${name}="${value}">`);
  }
  for (const child of Array.from(element.childNodes as Iterable<Node>)) {
    if (child.nodeType === 1) visit(child as Element, drawn, wrong);
    else if (child.nodeType !== 3 && child.nodeType !== 10) wrong.push(`node of type ${child.nodeType}: ${child}`);
  }
}

function isHarmless(tag: string, name: string, value: string, drawn: boolean): boolean {
  if (name === 'href') return ADDRESS.test(value);
  if (name === 'src') return PICTURE.test(value);
  if (name === 'style') return /^text-align:(?:left|right|center)$/.test(value);
  if (tag === 'meta' && name === 'http-equiv') return value === 'Content-Security-Policy';
  return !drawn || name === 'class' || name === 'id' || SVG_VALUE.test(value);
}
