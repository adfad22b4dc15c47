/** Tables as Markdown writes them (GitHub Flavored Markdown 0.29, section 4.10). */

/** The lines of a table; the first column is text and the others are numbers. */
export function tableLines(head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const marks = head.map((_, index) => (index === 0 ? '---' : '---:'));
  return [line(head.map(escaped)), line(marks), ...rows.map((row) => line(row.map(escaped)))];
}

/** Tables are kept with a bar before each line. */
export function isTableLine(line: string): boolean {
  return line.startsWith('|');
}

/** Whether lines hold this table, whatever its columns are padded with and however they are aligned. */
export function holdsTable(
  lines: readonly string[],
  head: readonly string[],
  rows: readonly (readonly string[])[],
): boolean {
  const [first, marks, ...rest] = lines.map(cellsOf);
  if (!first || !marks || marks.length !== head.length || !marks.every((mark) => /^:?-+:?$/.test(mark))) return false;
  const same = (one: readonly string[], other: readonly string[]) =>
    one.length === other.length && one.every((cell, index) => cell === plain(other[index]!));
  return same(first, head) && rest.length === rows.length && rest.every((row, index) => same(row, rows[index]!));
}

function cellsOf(line: string): readonly string[] {
  const inner = line.replace(/^\|/, '').replace(/(?<!\\)\|$/, '');
  return inner.split(/(?<!\\)\|/).map((cell) => plain(cell.replace(/\\(?=[!-/:-@[-`{-~])/g, '')));
}

function plain(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

function escaped(text: string): string {
  return plain(text).replace(/[\\`*_[\]<>|&~]/g, '\\$&');
}
