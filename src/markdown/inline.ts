/** Links and marks of one stretch of Markdown, by the parser with everything that a paragraph may hold. */
import { flowTree, type MarkdownExtension, SHIFT, wholeTree } from './flow.ts';
import { nodesOf, placeOf } from './nodes.ts';
import type { BoundSlip, SourceSpan } from './note-text.ts';
import { type SeenText, seenText } from './placed-text.ts';

/** `[label]: target`. */
export interface Definition {
  /** As labels are compared. */
  readonly label: string;
  readonly url: string;
  /** Of the target. */
  readonly span: SourceSpan;
}

/** Offsets are those of the stretch. */
export interface InlineStretch {
  readonly links: readonly FoundLink[];
  readonly marks: readonly Mark[];
  readonly slips: readonly BoundSlip[];
}

interface FoundLink {
  readonly span: SourceSpan;
  readonly url: string;
  /** null where it refers to a definition. */
  readonly targetSpan: SourceSpan | null;
  readonly label: string | null;
  readonly text: SeenText;
}

export interface Mark {
  readonly span: SourceSpan;
  /** Where the list item or quotation begins that it stands in; null at the top. */
  readonly parent: number | null;
  /** What follows `infusion:`; null in a closing mark. */
  readonly statement: { readonly text: string; readonly start: number } | null;
}

/** `withTargets`: a target may be one of ours, and is read with its escapes. */
export function definitionsIn(markdown: string, withTargets: boolean): readonly Definition[] {
  const targets = new Map<object, SourceSpan>();
  const recorder = targetRecorder(targets, SHIFT);
  const tree = withTargets ? wholeTree(markdown, '', [recorder]) : flowTree(markdown, '', [recorder]);
  const found: Definition[] = [];
  for (const { node } of nodesOf(tree)) {
    const span = node.type === 'definition' && targets.get(node);
    if (span) found.push({ label: node.identifier, url: node.url, span });
  }
  return found;
}

/** `defined`: labels that are defined elsewhere in the note. */
export function readInline(markdown: string, defined: readonly string[]): InlineStretch {
  const before = defined.map((label) => `[${label}]: x\n`).join('');
  const shift = before.length + SHIFT;
  const targets = new Map<object, SourceSpan>();
  const tree = wholeTree(markdown, before, [targetRecorder(targets, shift)]);
  const links: FoundLink[] = [];
  const marks: Mark[] = [];
  const slips: BoundSlip[] = [];
  for (const { node, parent } of nodesOf(tree)) {
    const span = placeOf(node, shift);
    if (span.start < 0) continue;
    if (node.type === 'link') {
      const targetSpan = targets.get(node) ?? autolinkTarget(markdown, span);
      links.push({ span, url: node.url, targetSpan, label: null, text: seenText(markdown, node, shift) });
    } else if (node.type === 'linkReference') {
      links.push({ span, url: '', targetSpan: null, label: node.identifier, text: seenText(markdown, node, shift) });
    } else if (node.type === 'html') {
      const stands = parent.type === 'paragraph' || parent.type === 'heading' ? 'in-line' : 'by-itself';
      const within = parent.type === 'root' ? null : placeOf(parent, shift).start;
      // The parser counts the indentation in.
      const html = markdown.slice(span.start, span.end).trimStart();
      const start = span.end - html.length;
      const mark = markOf(html, start);
      if (mark === 'not-alone' || (mark && stands === 'in-line')) {
        const at = { start, end: firstLineEnd(markdown, { start, end: span.end }) };
        slips.push({ at, problem: 'mark-not-alone' });
      } else if (mark) marks.push({ ...mark, parent: within });
    } else if (node.type === 'text') slips.push(...spacedTargets(markdown, span));
  }
  return { links, marks, slips };
}

/** `<infusion:gastric>`. */
function autolinkTarget(markdown: string, { start, end }: SourceSpan): SourceSpan | null {
  return markdown[start] === '<' ? { start: start + 1, end: end - 1 } : null;
}

const MARK = /^<!--[ \t]*(?:(infusion:)[ \t]*([^\r\n]*?)|\/infusion)[ \t]*-->[ \t]*$/i;
const MEANT_AS_MARK = /^<!--\s*(?:infusion:|\/infusion(?![\w-]))/i;

/** The mark that a piece of raw HTML is; `not-alone` where it only begins like one. */
function markOf(html: string, start: number): Omit<Mark, 'parent'> | 'not-alone' | null {
  if (!MEANT_AS_MARK.test(html)) return null;
  const [whole, opens, statement = ''] = MARK.exec(html) ?? [];
  if (whole === undefined || statement.includes('-->')) return 'not-alone';
  const span = { start, end: start + whole.trimEnd().length };
  if (!opens) return { span, statement: null };
  const from = html.indexOf(opens) + opens.length;
  const at = from + /^[ \t]*/.exec(html.slice(from))![0].length;
  return { span, statement: { text: statement, start: start + at } };
}

/** What looks like a link to a result and is read as text: most often a space keeps it from being one. */
function spacedTargets(markdown: string, { start, end }: SourceSpan): BoundSlip[] {
  const text = markdown.slice(start, end);
  const slips: BoundSlip[] = [];
  for (const { index, 0: found, 1: target } of text.matchAll(/\]\([ \t]*<?(infusion:[^()<>\r\n]{0,200})>?\)/gi)) {
    if (text[index - 1] === '\\') continue;
    const from = start + index + found.indexOf(target!);
    slips.push({ at: { start: from, end: from + target!.trimEnd().length }, problem: 'not-a-link' });
  }
  return slips;
}

function firstLineEnd(markdown: string, { start, end }: SourceSpan): number {
  const length = markdown.slice(start, end).search(/[\r\n]/);
  return length < 0 ? end : start + length;
}

/** Notes where the target of each link and definition is written; the tree's own nodes do not say. */
function targetRecorder(targets: Map<object, SourceSpan>, shift: number): MarkdownExtension {
  const record: NonNullable<MarkdownExtension['enter']>[string] = function (token) {
    const node = this.stack.at(-1)!;
    targets.set(node, { start: token.start.offset - shift, end: token.end.offset - shift });
    this.buffer();
  };
  return { enter: { resourceDestinationString: record, definitionDestinationString: record } };
}
