/** Lines that are put into a block, each behind what its containers put in front of the lines around it. */
import { linesOf } from './lines.ts';
import type { Block, SourceSpan } from './note-text.ts';

/** `above` and `below` the line of a place, as far to the right as that; or below the block's last line, at its margin. */
export type Put = 'above' | 'below' | 'last';

interface NewLines {
  readonly span: SourceSpan;
  readonly text: string;
}

/**
 * `at` is a place in the source, inside the block. What is put in begins at the start of a line of the source wherever
 * there is one, so that an editor which indents what it inserts has nothing to add.
 */
export function newLines(
  source: string,
  block: Block,
  at: number,
  { lines, put }: { readonly lines: readonly string[]; readonly put: Put },
): NewLines {
  const beside = put === 'last' ? block.text.trimEnd().length : (block.toText(at) ?? 0);
  const textStart = block.text.lastIndexOf('\n', beside - 1) + 1;
  const indent = put === 'last' ? 0 : /^[ \t]*/.exec(block.text.slice(textStart))![0].length;
  const first = block.toSource({ start: textStart + indent, end: textStart + indent }).start;
  const start = lineStartOf(source, first);
  const margin = source.slice(start, first);
  if (put !== 'above') return below(source, start, lines, margin);
  const lineEnd = lineEndIn(source, start);
  return { span: { start, end: start }, text: lines.map((line) => margin + line + lineEnd).join('') };
}

/** Takes the line of a place out, with its end. */
export function withoutLine(source: string, at: number): NewLines {
  const start = lineStartOf(source, at);
  const { next } = linesOf(source, start).next().value ?? { next: source.length };
  return { span: { start, end: next }, text: '' };
}

/** Closes a block that nothing closes, below its last line that is read. */
export function closingFence(source: string, block: Block): NewLines {
  const [marks] = /^(?:`+|~+)/.exec(source.slice(block.span.start))!;
  if (block.text.trim() !== '') return newLines(source, block, 0, { lines: [marks], put: 'last' });
  const start = lineStartOf(source, block.span.start);
  // A list's mark is said once, a quotation's on every line.
  const margin = source
    .slice(start, block.span.start)
    .replace(/[^\s>]/g, ' ')
    .replace(/\uFEFF/g, '');
  return below(source, start, [marks], margin);
}

function below(source: string, lineStart: number, lines: readonly string[], margin: string): NewLines {
  const { end, next } = linesOf(source, lineStart).next().value ?? { end: source.length, next: source.length };
  const lineEnd = lineEndIn(source, lineStart);
  const text = lines.map((line) => margin + line);
  if (next === end) return { span: { start: end, end }, text: text.map((line) => lineEnd + line).join('') };
  return { span: { start: next, end: next }, text: text.map((line) => line + lineEnd).join('') };
}

/** How the lines of the note end: the line itself, or where it is the last one, the first. */
function lineEndIn(source: string, lineStart: number): string {
  for (const from of [lineStart, 0]) {
    const line = linesOf(source, from).next().value;
    if (line && line.next > line.end) return source.slice(line.end, line.next);
  }
  return '\n';
}

function lineStartOf(source: string, offset: number): number {
  return Math.max(source.lastIndexOf('\n', offset - 1), source.lastIndexOf('\r', offset - 1)) + 1;
}
