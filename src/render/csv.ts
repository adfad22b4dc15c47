/**
 * Tables as comma-separated values (RFC 4180): lines end with CR LF, cells with a comma, a quotation mark or a line end
 * are quoted, and quotation marks in them doubled.
 */

/** A number by its digits goes as it is; any text is kept from being taken for a formula. */
export type CsvCell = string | { readonly number: string };

export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

/**
 * An apostrophe before text that a spreadsheet may work out: text that begins with = + - @, their full-width forms, a tab,
 * a line end or U+0000, white space before it left aside. Likewise after each line end, since some programs read the
 * lines of a quoted cell one by one. (OWASP, CSV Injection; OWASP Application Security Verification Standard 5, 1.2.10.)
 */
export function inert(text: string): string {
  return text.replace(/^(?=[\t\r\n\0]|\s*[=+\-@＝＋－＠])|(?<=[\r\n])(?=[^\S\r\n]*[=+\-@＝＋－＠])/g, "'");
}

function cellText(cell: CsvCell): string {
  if (typeof cell !== 'string') return cell.number;
  const text = inert(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
