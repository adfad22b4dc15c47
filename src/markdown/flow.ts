import remarkParse from 'remark-parse';
import { type Data, unified } from 'unified';
import { BLANK_LINE, LINE_END } from './lines.ts';
import type { SourceSpan } from './note-text.ts';

export type MarkdownExtension = Exclude<NonNullable<Data['fromMarkdownExtensions']>[number], readonly unknown[]>;
type SyntaxExtension = NonNullable<Data['micromarkExtensions']>[number];

/** The content of one line of a fence, as the parser found it behind the prefixes of its containers. */
interface FenceLine extends SourceSpan {
  /** Spaces before it that are the rest of a tab which a container took in part. */
  readonly padding: number;
}

/** A fenced code block by its marks. Offsets are those of the text parsed. */
export interface Fence {
  /** The run of backticks or tildes that opens it. */
  readonly opening: SourceSpan;
  /** The run that closes it; null when the text or its container ends first. */
  readonly closing: SourceSpan | null;
  /** The lines of content that are not empty, in order. */
  readonly lines: readonly FenceLine[];
}

/** What a stretch of Markdown holds for us. */
export interface Flow {
  readonly fences: readonly Fence[];
  readonly open: OpenEnd | null;
}

/** What would swallow a line that followed at the left margin: a fence, or raw HTML. */
interface OpenEnd {
  readonly fence: Fence | null;
  /** Matches what ends it; the line that holds it is the last one swallowed. */
  readonly until: RegExp;
}

/** Reads a stretch of Markdown that begins at a line's start, by the parser alone. */
export function readFlow(markdown: string): Flow {
  // The heading after shows what is still open: at the left margin it ends everything else.
  const after = /[\r\n]$/.test(markdown) ? '# x' : '\n# x';
  const fences: Fence[] = [];
  const root = flowTree(markdown, after, [fenceRecorder(fences, SHIFT)]);
  const last = root.children.at(-1);
  const fence = fences.at(-1);
  if (last?.type === 'html') return { fences, open: { fence: null, until: endOfHtml(last.value) } };
  if (last?.type === 'code' && fence !== undefined) {
    return { fences, open: { fence, until: endOfFence(markdown.slice(fence.opening.start, fence.opening.end)) } };
  }
  return { fences, open: null };
}

/** A line end before keeps a byte order mark in the middle of a note what it is, a character. */
const BEFORE = '\n';
/** How far the tree's offsets lie behind those of the text. */
export const SHIFT = BEFORE.length;

/** The tree of a stretch of Markdown in which paragraphs are text and nothing else. */
export function flowTree(markdown: string, after = '', extensions: readonly MarkdownExtension[] = []) {
  return treeOf(BEFORE + tameDepth(markdown) + after, [flowOnly], extensions);
}

/** The tree with all that stands in paragraphs. `before`: lines that are read first; the offsets lie behind them. */
export function wholeTree(markdown: string, before: string, extensions: readonly MarkdownExtension[]) {
  return treeOf(before + BEFORE + tameDepth(markdown), [], extensions);
}

function treeOf(markdown: string, syntax: SyntaxExtension[], extensions: readonly MarkdownExtension[]) {
  return unified()
    .use(remarkParse)
    .data('micromarkExtensions', syntax)
    .data('fromMarkdownExtensions', [...extensions])
    .parse(markdown);
}

/** CommonMark 0.31.2, section 4.5: at least as many marks of the same kind, indented by three columns at most. */
export function endOfFence(opening: string): RegExp {
  return new RegExp(`${LINE_END} {0,3}${opening[0]}{${opening.length},}[ \\t]*(?=[\\r\\n]|$)`);
}

/** CommonMark 0.31.2, section 4.6: five kinds of raw HTML name their end, the others end at a blank line. */
function endOfHtml(html: string): RegExp {
  const beginning = html.trimStart();
  if (/^<(?:script|pre|style|textarea)(?![^\s>])/i.test(beginning)) return /<\/(?:script|pre|style|textarea)>/i;
  if (beginning.startsWith('<!--')) return /-->/;
  if (beginning.startsWith('<?')) return /\?>/;
  if (beginning.startsWith('<![CDATA[')) return /\]\]>/;
  if (/^<![a-z]/i.test(beginning)) return />/;
  return BLANK_LINE;
}

/** Inside paragraphs nothing is looked for: the parser is three times as quick, and no run of brackets can slow it. */
const flowOnly: SyntaxExtension = {
  disable: {
    null: [
      'attention',
      'autolink',
      'characterEscape',
      'characterReference',
      'codeText',
      'hardBreakEscape',
      'htmlText',
      'labelEnd',
      'labelStartImage',
      'labelStartLink',
    ],
  },
};

/**
 * Lists and quotations opened on one line, beyond which the line is read as prose: the parser's time grows with the
 * cube of their number.
 */
const MAX_DEPTH = 32;
const TOO_DEEP = new RegExp(
  String.raw`^([ \t]*)(?:[ \t]*(?:>|(?:[*+-]|\d{1,9}[.)])(?=[ \t]))){${MAX_DEPTH + 1},}.*`,
  'gm',
);

function tameDepth(markdown: string): string {
  return markdown.replace(TOO_DEEP, (line: string, indent: string) => `${indent}#`.padEnd(line.length));
}

/**
 * Notes every fence with its marks and lines. The positions of the tree's own nodes do not say where the content
 * stands once a container's prefix lies before it; these tokens do.
 */
function fenceRecorder(fences: Fence[], shift: number): MarkdownExtension {
  let lines: FenceLine[] = [];
  const place = (token: { start: { offset: number }; end: { offset: number } }) => ({
    start: token.start.offset - shift,
    end: token.end.offset - shift,
  });
  return {
    enter: {
      codeFencedFenceSequence(token) {
        const opens = this.stack.at(-1)?.type === 'code';
        const fence = fences.at(-1);
        if (opens) {
          lines = [];
          fences.push({ opening: place(token), closing: null, lines });
        } else if (fence !== undefined) {
          fences[fences.length - 1] = { ...fence, closing: place(token) };
        }
      },
      codeFlowValue(token) {
        const isFenced = this.tokenStack.at(-1)?.[0].type === 'codeFenced';
        if (!isFenced) return;
        const { start, end } = place(token);
        lines.push({ start, end, padding: this.sliceSerialize(token).length - (end - start) });
      },
    },
    exit: {
      codeFlowValue() {
        // The tree's own copy of the content is not needed.
      },
    },
  };
}
