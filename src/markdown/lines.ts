/** A line's place in a text: `end` stands before the line end, `next` after it. */
export interface LinePlace {
  readonly start: number;
  readonly end: number;
  readonly next: number;
}

/** One line end as Markdown counts them: LF, CR LF or a lone CR (CommonMark 0.31.2, section 2.1). */
export const LINE_END = String.raw`(?:\r\n|\n|\r(?!\n))`;

/** The lines of a text from the line start `from` on. A final line end opens no further line. */
export function* linesOf(text: string, from = 0): Generator<LinePlace> {
  const lineEnd = new RegExp(LINE_END, 'g');
  let start = from;
  while (start < text.length) {
    lineEnd.lastIndex = start;
    const found = lineEnd.exec(text);
    const end = found?.index ?? text.length;
    const next = end + (found?.[0].length ?? 0);
    yield { start, end, next };
    start = next;
  }
}

/** Whether Markdown calls the line blank: spaces and tabs only, no other white space. */
export function isBlank(line: string): boolean {
  return /^[ \t]*$/.test(line);
}

/** A blank line with the line end before it. */
export const BLANK_LINE = new RegExp(`${LINE_END}[ \\t]*(?=[\\r\\n]|$)`);
