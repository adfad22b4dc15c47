/** One line of a block's text and where it stands. */
export interface PlacedLine {
  readonly text: string;
  /** The source offset of its first character; of the line's end where the line is empty. */
  readonly start: number;
  /** Spaces at its beginning that are the rest of a tab and so have no place of their own in the source. */
  readonly padding: number;
}

/** The text of a block, and the way from it to the source and back. Both ways are total. */
export class LineMap {
  readonly text: string;
  readonly #lines: readonly PlacedLine[];
  readonly #textStarts: readonly number[];
  readonly #anchor: number;

  /** `anchor` is where a block without lines stands. */
  constructor(lines: readonly PlacedLine[], anchor: number) {
    let length = 0;
    this.#textStarts = lines.map((line) => {
      const start = length;
      length += line.text.length + 1;
      return start;
    });
    this.#lines = lines;
    this.#anchor = anchor;
    this.text = lines.map((line) => line.text).join('\n');
  }

  /** The source offset of a place in the text; the nearest one for a place outside it. */
  toSource(offset: number): number {
    const index = lastAtOrBefore(this.#textStarts, (start) => start, offset);
    const line = this.#lines[index];
    if (line === undefined) return this.#anchor;
    const column = Math.min(offset - this.#textStarts[index]!, line.text.length);
    return line.start + Math.max(column - line.padding, 0);
  }

  /** The place in the text of a source offset; null outside the lines. */
  toText(offset: number): number | null {
    const index = this.#lineAt(offset);
    return index === null ? null : this.#textStarts[index]! + this.#columnOf(this.#lines[index]!, offset);
  }

  /** The line that holds a source offset, its ends included, and the offset's column in the line's text. */
  lineAt(offset: number): { readonly index: number; readonly text: string; readonly column: number } | null {
    const index = this.#lineAt(offset);
    if (index === null) return null;
    const line = this.#lines[index]!;
    return { index, text: line.text, column: this.#columnOf(line, offset) };
  }

  /** The map after one line was rewritten in the source, behind its padding and without moving its start. */
  withLine(index: number, text: string): LineMap {
    const longer = text.length - this.#lines[index]!.text.length;
    const lines = this.#lines.map((line, other) =>
      other < index ? line : other === index ? { ...line, text } : { ...line, start: line.start + longer },
    );
    return new LineMap(lines, this.#anchor);
  }

  #lineAt(offset: number): number | null {
    const index = lastAtOrBefore(this.#lines, (line) => line.start, offset);
    const line = this.#lines[index];
    if (line === undefined) return null;
    const column = this.#columnOf(line, offset);
    return column >= line.padding && column <= line.text.length ? index : null;
  }

  #columnOf(line: PlacedLine, offset: number): number {
    return line.padding + offset - line.start;
  }
}

/** The index of the last item at or before `place`; the first when all come after it. */
function lastAtOrBefore<T>(items: readonly T[], placeOf: (item: T) => number, place: number): number {
  let low = 0;
  let high = items.length;
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if (placeOf(items[middle]!) <= place) low = middle;
    else high = middle;
  }
  return low;
}
