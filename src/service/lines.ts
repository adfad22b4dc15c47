/** Line numbers of a note. A line ends at CR LF, LF or CR alone, as editors and the language server protocol count. */
export class Lines {
  private readonly starts: readonly number[];

  constructor(private readonly source: string) {
    const starts = [0];
    for (const match of source.matchAll(/\r\n|\n|\r/g)) starts.push(match.index + match[0].length);
    this.starts = starts;
  }

  /** Zero-based line and UTF-16 column of an offset; offsets outside the note are clamped. */
  at(offset: number): { readonly line: number; readonly character: number } {
    const inside = Math.min(Math.max(offset, 0), this.source.length);
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= inside) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: inside - this.starts[low]! };
  }

  /** Where a zero-based line begins; the note's end for a line behind it. */
  startOf(line: number): number {
    return this.starts[line] ?? this.source.length;
  }

  /** The text of a zero-based line, its end left out. */
  text(line: number): string {
    const start = this.starts[line];
    if (start === undefined) return '';
    let end = this.starts[line + 1] ?? this.source.length;
    while (end > start && /[\r\n]/.test(this.source[end - 1]!)) end -= 1;
    return this.source.slice(start, end);
  }
}
