/** The lines of a block's text. */
import type { Span } from './ast.ts';

/** The lines without their ends: `\n`, `\r\n` or a lone `\r`. */
export function* linesOf(text: string): Generator<Span> {
  const ends = /\r\n?|\n/g;
  let start = 0;
  for (let end = ends.exec(text); end !== null; end = ends.exec(text)) {
    yield { start, end: end.index };
    start = ends.lastIndex;
  }
  yield { start, end: text.length };
}

/** A normalised line without the spaces around it; null for a blank line. */
export function trimmed(normal: string, { start, end }: Span): Span | null {
  let from = start;
  let to = end;
  while (from < to && normal[from] === ' ') from += 1;
  while (to > from && normal[to - 1] === ' ') to -= 1;
  return from === to ? null : { start: from, end: to };
}
