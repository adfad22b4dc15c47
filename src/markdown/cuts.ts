import { isBlank, linesOf } from './lines.ts';

/** A bullet at the left margin with text behind it; one that opens a second container there may be read otherwise. */
const BULLET = /^[*+-][ \t]+(?![>*+-]|\d{1,9}[.)])[^ \t]/;

/**
 * Where a note can be cut so that what follows reads the same on its own, unless raw HTML or a fence is still open
 * there: before a line at the left margin that follows a blank line, and before a bullet at the left margin with
 * text behind it. Such a line ends every list, quotation and paragraph before it. The cuts behind the line start `from`;
 * the note's end is the last.
 */
export function* cutsFrom(note: string, from: number): Generator<number> {
  let afterBlank = false;
  for (const { start, end } of linesOf(note, from)) {
    const line = note.slice(start, end);
    const atMargin = /^[^ \t]/.test(line);
    if (start > from && atMargin && (afterBlank || BULLET.test(line))) yield start;
    afterBlank = isBlank(line);
  }
  yield note.length;
}

/** The first line start behind a match of `pattern` at or after the line start `from`; null when there is none. */
export function endOf(pattern: RegExp, note: string, from: number): number | null {
  const lineEndBefore = from - 1;
  const found = pattern.exec(note.slice(lineEndBefore));
  if (found === null) return null;
  const end = lineEndBefore + found.index + found[0].length;
  return linesOf(note, end).next().value?.next ?? note.length;
}
