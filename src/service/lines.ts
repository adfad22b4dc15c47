/** Line numbers of a note. A line ends at CR LF, LF or CR alone, as editors and the language server protocol count. */
export class Lines {
  private found: readonly number[] | null = null;

  constructor(private readonly source: string) {}

  /** Looked for when a line is first asked for: most versions of a note are never asked. */
  private get starts(): readonly number[] {
    this.found ??= [0, ...Array.from(this.source.matchAll(/\r\n|\n|\r/g), ({ index, 0: end }) => index + end.length)];
    return this.found;
  }

  /** Zero-based line and UTF-16 column of an offset; offsets outside the note are clamped. */
  at(offset: number): { readonly line: number; readonly character: number } {
    const { starts } = this;
    const inside = Math.min(Math.max(offset, 0), this.source.length);
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= inside) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: inside - starts[low]! };
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
