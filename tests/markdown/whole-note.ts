/** What a note's infusion blocks are when the whole of it is parsed at once by remark: the answer to compare with. */
import remarkFrontmatter from 'remark-frontmatter';
import remarkParse from 'remark-parse';
import { unified } from 'unified';

export interface WholeBlock {
  readonly text: string;
  readonly start: number;
  /** The end of the closing fence; null when nothing closes it. */
  readonly end: number | null;
}

const plain = unified().use(remarkParse).freeze();
const withFrontMatter = unified().use(remarkParse).use(remarkFrontmatter).freeze();

type Root = ReturnType<typeof plain.parse>;
type Content = Root['children'][number];

/** Where front matter is begun and never closed, the plugin reads no list or quotation below it; then it is left out. */
function parse(source: string): Root {
  const root = withFrontMatter.parse(source);
  return root.children[0]?.type === 'yaml' ? root : plain.parse(source);
}

export function wholeBlocks(source: string): WholeBlock[] {
  // remark leaves a byte order mark out of its offsets.
  const shift = source.startsWith('\uFEFF') ? 1 : 0;
  const blocks: WholeBlock[] = [];
  const visit = (node: Content) => {
    if (node.type === 'code' && node.lang?.toLowerCase() === 'infusion') {
      const { start: from, end: to } = node.position!;
      const start = from.offset! + shift;
      const written = source.slice(start, to.offset! + shift);
      const marks = /^(`+|~+)/.exec(written)![0];
      const endsInMarks = new RegExp(`[\\r\\n][ \\t>]*${marks}${marks[0]}*[ \\t]*$`).test(written);
      const hasLineMore = node.value === '' || to.line - from.line > node.value.split(/\r\n?|\n/).length;
      const end = endsInMarks && hasLineMore ? start + written.trimEnd().length : null;
      blocks.push({ text: node.value.replace(/\r\n?/g, '\n'), start, end });
    }
    if ('children' in node) node.children.forEach(visit);
  };
  parse(source).children.forEach(visit);
  return blocks;
}

/** What of a note is no prose: code, raw HTML that stands by itself, definitions and front matter. */
export function notProse(source: string): readonly { readonly start: number; readonly end: number }[] {
  const shift = source.startsWith('\uFEFF') ? 1 : 0;
  const code: { start: number; end: number }[] = [];
  const visit = (node: Content, parent: string) => {
    const inline = node.type === 'html' && (parent === 'paragraph' || parent === 'heading');
    if (['code', 'inlineCode', 'html', 'yaml', 'definition'].includes(node.type) && !inline) {
      code.push({ start: node.position!.start.offset! + shift, end: node.position!.end.offset! + shift });
    }
    if ('children' in node) for (const child of node.children) visit(child, node.type);
  };
  for (const child of parse(source).children) visit(child, 'root');
  return code;
}

/** Links and marks of a note, in short. */
export interface WholeBound {
  /** Where each begins and ends, where it leads, and what a reader sees of it. */
  readonly links: readonly {
    readonly start: number;
    readonly end: number;
    readonly url: string;
    readonly text: string;
  }[];
  /** Where the marks of each kept table begin. */
  readonly tables: readonly (readonly [number, number])[];
  /** Where marks without their other, and marks that do not stand alone, begin. */
  readonly strayMarks: readonly number[];
}

export function wholeBound(source: string): WholeBound {
  const shift = source.startsWith('\uFEFF') ? 1 : 0;
  const root = parse(source);
  const definitions = new Map<string, string>();
  const all: { node: Content; parent: Content | Root }[] = [];
  const visit = (node: Content, parent: Content | Root) => {
    all.push({ node, parent });
    if (node.type === 'definition' && !definitions.has(node.identifier)) definitions.set(node.identifier, node.url);
    if ('children' in node) for (const child of node.children) visit(child, node);
  };
  for (const child of root.children) visit(child, root);

  const links: WholeBound['links'][number][] = [];
  const tables: [number, number][] = [];
  const strayMarks: number[] = [];
  let open = null as { start: number; parent: Content | Root } | null;
  for (const { node, parent } of all) {
    const start = node.position!.start.offset! + shift;
    const end = node.position!.end.offset! + shift;
    if (node.type === 'link' || node.type === 'linkReference') {
      const url = node.type === 'link' ? node.url : definitions.get(node.identifier)!;
      if (/^infusion:/i.test(url)) links.push({ start, end, url, text: seen(node) });
    } else if (node.type === 'html' && /^\s*<!--\s*(?:infusion:|\/infusion)/i.test(node.value)) {
      const mark = source.indexOf('<!--', start);
      const alone = parent.type !== 'paragraph' && parent.type !== 'heading';
      const closes = /^\s*<!--\s*\/infusion/i.test(node.value);
      if (
        !alone ||
        !/^\s*<!--[^\r\n]*-->\s*$/.test(node.value) ||
        node.value.indexOf('-->') !== node.value.trimEnd().length - 3
      ) {
        strayMarks.push(mark);
      } else if (closes && open?.parent === parent) {
        tables.push([open.start, mark]);
        open = null;
      } else {
        if (open) strayMarks.push(open.start);
        if (closes) strayMarks.push(mark);
        open = closes ? null : { start: mark, parent };
      }
    }
  }
  if (open) strayMarks.push(open.start);
  return { links, tables, strayMarks: strayMarks.sort((a, b) => a - b) };
}

function seen(node: Content): string {
  if (node.type === 'text' || node.type === 'inlineCode') return node.value;
  if (node.type === 'break') return ' ';
  return 'children' in node ? node.children.map(seen).join('') : '';
}
