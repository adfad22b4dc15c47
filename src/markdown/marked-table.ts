/** Pairs of marks, and the table that stands between them. */
import type { Mark } from './inline.ts';
import { linesOf } from './lines.ts';
import type { BoundSlip, MarkedTable, SourceSpan } from './note-text.ts';

/** An opening mark goes with the closing mark that follows it in the same list item, quotation or at the top. */
export function pairMarks(
  source: string,
  marks: readonly Mark[],
): { readonly tables: readonly MarkedTable[]; readonly unpaired: readonly BoundSlip[] } {
  const tables: MarkedTable[] = [];
  const unpaired: BoundSlip[] = [];
  let open: Mark | null = null;
  for (const mark of marks) {
    if (!mark.statement && open?.statement && open.parent === mark.parent) {
      tables.push(new PlacedTable(source, open.span, mark.span, open.statement));
      open = null;
      continue;
    }
    if (open) unpaired.push({ at: open.span, problem: 'mark-unclosed' });
    open = mark.statement ? mark : null;
    if (!open) unpaired.push({ at: mark.span, problem: 'mark-unopened' });
  }
  if (open) unpaired.push({ at: open.span, problem: 'mark-unclosed' });
  return { tables, unpaired };
}

class PlacedTable implements MarkedTable {
  readonly between: SourceSpan;
  readonly lines: readonly string[];
  /** What each line between the marks begins with: the marks of quotations, the indentation of lists. */
  private readonly prefix: string;
  private readonly lineEnd: string;

  constructor(
    source: string,
    readonly opening: SourceSpan,
    readonly closing: SourceSpan,
    readonly statement: MarkedTable['statement'],
  ) {
    const { end, next } = linesOf(source, opening.end).next().value ?? { end: opening.end, next: opening.end };
    this.lineEnd = source.slice(end, next);
    const last = Math.max(source.lastIndexOf('\n', closing.start - 1), source.lastIndexOf('\r', closing.start - 1)) + 1;
    this.prefix = source.slice(last, closing.start);
    this.between = { start: next, end: last };
    this.lines = Array.from(linesOf(source.slice(next, last)), (line) =>
      source
        .slice(next + line.start, next + line.end)
        .replace(/^[ \t>]*/, '')
        .trimEnd(),
    ).filter((line) => line !== '');
  }

  written(lines: readonly string[]): string {
    return ['', ...lines, ''].map((line) => (this.prefix + line).trimEnd() + this.lineEnd).join('');
  }
}
