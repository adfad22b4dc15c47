/** The blocks of a note in the one form, as edits of its source. What is not in a block is not touched. */
import { readNote } from '../markdown/index.ts';
import type { Block, NoteText, SourceSpan } from '../markdown/note-text.ts';
import { formatBlock, formatLines } from '../notation/index.ts';
import { applied } from './edits.ts';
import type { Edit } from './types.ts';

/**
 * Edits for each line that changes, in order. Blocks that are skipped or never closed are left alone, and so is one that
 * the Markdown around it would not let come out as it should.
 */
export function formattingOf(
  { source, blocks }: Pick<NoteText, 'source' | 'blocks'>,
  within: SourceSpan = { start: 0, end: source.length },
): readonly Edit[] {
  const edits = blocks.map((block) => {
    const touched = block.span.start <= within.end && block.span.end >= within.start;
    return touched && block.closed && block.mode !== 'skip' ? editsOf(source, block) : [];
  });
  const all = edits.flat();
  if (all.length === 0) return all;
  const after = readNote(applied(source, all)).blocks;
  if (after.length !== blocks.length) return [];
  return edits.filter((_, index) => after[index]!.text === formatBlock(blocks[index]!.text)).flat();
}

function editsOf(source: string, block: Block): readonly Edit[] {
  // No line at all stands between the marks: the block's text maps to its info string, which is not to be touched.
  if (block.text === '' && block.toSource({ start: 0, end: 0 }).start <= block.info.end) return [];
  const mark = columnOf(source, block.span.start);
  const lines = block.text.split('\n');
  const formatted = formatLines(block.text);
  const edits: Edit[] = [];
  let start = 0;
  for (const [index, line] of lines.entries()) {
    const place = { start, end: start + line.length };
    const to = formatted[index]!;
    if (to === null) edits.push(removed(source, block.toSource(place)));
    else if (to !== line) edits.push(rewritten(source, block, place, to, mark));
    start = place.end + 1;
  }
  return edits;
}

/** A blank line goes with the line end before it and what its containers put in front. */
function removed(source: string, { start, end }: SourceSpan): Edit {
  const lineStart = lineStartOf(source, start);
  return { span: { start: lineStart - (source.startsWith('\r\n', lineStart - 2) ? 2 : 1), end }, text: '' };
}

/**
 * A line behind what its containers put in front. A fence that is indented takes as much from each of its lines, so a
 * line that begins to the left of its column is moved there; a tab that a container takes in part gives way to spaces.
 */
function rewritten(source: string, block: Block, place: SourceSpan, to: string, mark: number): Edit {
  const { start, end } = block.toSource(place);
  const padding = paddingOf(block, place);
  const column = columnOf(source, start) - padding;
  const text = to === '' ? '' : ' '.repeat(Math.max(mark - column, 0)) + to;
  if (padding === 0) return { span: { start, end }, text };
  const tab = start - 1;
  return { span: { start: tab, end }, text: ' '.repeat(column - columnOf(source, tab)) + text };
}

/** How many of a line's first spaces are the rest of a tab: they all stand at one place of the source. */
function paddingOf(block: Block, { start, end }: SourceSpan): number {
  const at = (offset: number) => block.toSource({ start: offset, end: offset }).start;
  let padding = 0;
  while (start + padding < end && padding < TAB && at(start + padding + 1) === at(start)) padding += 1;
  return padding;
}

/** CommonMark 0.31.2, section 2.2: tabs stand for spaces up to the next multiple of four columns. */
const TAB = 4;

/** The column at which an offset stands in its line; a byte order mark takes none. */
function columnOf(source: string, offset: number): number {
  let column = 0;
  for (let at = lineStartOf(source, offset); at < offset; at += 1) {
    if (source[at] === '\t') column += TAB - (column % TAB);
    else if (at > 0 || source[at] !== '\uFEFF') column += 1;
  }
  return column;
}

function lineStartOf(source: string, offset: number): number {
  let start = offset;
  while (start > 0 && source[start - 1] !== '\n' && source[start - 1] !== '\r') start -= 1;
  return start;
}
