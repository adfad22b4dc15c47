/**
 * Blocks written one way: indentation, amounts below each other, one spelling for each unit, single spaces.
 *
 * Nothing that is said changes. Digits, words, titles and remarks stay as they are; a line that could not be read, or
 * would be read otherwise afterwards, is left as it stands.
 */
import type { Statement } from './ast.ts';
import { Indents, type Padding, type Parts, paddings, remarkIndent, splitAtAmount } from './layout.ts';
import { LIMITS } from './limits.ts';
import { linesOf, trimmed } from './lines.ts';
import { normalise } from './normalise.ts';
import { parseBlock } from './parse.ts';
import { piecesOf } from './pieces.ts';
import { readsAlike } from './reading.ts';

/** Formats a block's text; its line ends stay. Total, linear, and the same when done again. */
export function formatBlock(text: string): string {
  const places = [...linesOf(text)];
  const kept = formatLines(text).flatMap((line, index) =>
    line === null ? [] : [{ line, end: text.slice(places[index]!.end, places[index + 1]?.start) }],
  );
  return kept.map(({ line, end }, index) => (index + 1 < kept.length ? line + end : line)).join('');
}

/** Each line of a block's text as it is to be, without its end; null for a blank one that goes. */
export function formatLines(text: string): readonly (string | null)[] {
  const rows = rowsOf(text);
  if (rows.length > LIMITS.lines) return rows.map(({ written }) => written);
  const aligned = alignment(rows);
  const above = beforeEach(rows, 'next');
  const below = beforeEach(rows.toReversed(), 'indent').toReversed();
  const last = rows.findLastIndex(({ kind }) => kind !== 'blank');
  const formatted = (row: Row, index: number): string | null => {
    switch (row.kind) {
      case 'blank':
        // of blank lines together one is kept, where something stands above and below
        return index < last && (rows[index - 1]?.kind ?? 'blank') !== 'blank' ? '' : null;
      case 'unread':
        return row.written;
      case 'remark':
        return ' '.repeat(remarkIndent(below[index]!, above[index]!)) + row.remark;
      case 'statement': {
        const line = lineOf(row, aligned.get(row));
        return readsAlike(row.written, line) ? line : row.written;
      }
    }
  };
  return rows.map(formatted);
}

type Row = { readonly written: string } & (
  | { readonly kind: 'blank' }
  | { readonly kind: 'remark'; readonly remark: string }
  | ({ readonly kind: 'unread' } & Indentation)
  | StatementRow
);

interface Indentation {
  readonly indent: number;
  /** Of a line that would follow. */
  readonly next: number;
}

interface StatementRow extends Indentation {
  readonly kind: 'statement';
  readonly of: Statement['kind'];
  readonly parts: Parts;
  /** With the spaces before it; '' where there is none. */
  readonly remark: string;
}

function rowsOf(text: string): readonly Row[] {
  const normal = normalise(text);
  const statements = new Map(parseBlock(text).statements.map((statement) => [statement.line, statement]));
  const indents = new Indents();
  return Array.from(linesOf(text), (place, line): Row => {
    const written = text.slice(place.start, place.end);
    const span = trimmed(normal, place);
    if (span === null) return { kind: 'blank', written };
    const statement = statements.get(line);
    if (statement === undefined) return { kind: 'remark', written, remark: text.slice(span.start, span.end) };
    const indent = indents.of(statement);
    const { next } = indents;
    if (statement.kind === 'unread') return { kind: 'unread', written, indent, next };
    return {
      kind: 'statement',
      written,
      of: statement.kind,
      indent,
      next,
      parts: splitAtAmount(statement, piecesOf(text, normal, statement)),
      remark: remarkBehind(text.slice(statement.span.end, span.end)),
    };
  });
}

/** A remark keeps the spaces before it, so that remarks below each other stay so; two of them at least. */
function remarkBehind(written: string): string {
  const mark = written.indexOf('#');
  if (mark < 0) return '';
  const gap = written.slice(0, mark);
  return (/^ {2,}$/.test(gap) ? gap : '  ') + written.slice(mark);
}

function lineOf({ indent, parts: { head, number, tail }, remark }: StatementRow, padding?: Padding): string {
  const { lead, behind } = padding ?? { lead: 0, behind: 0 };
  return ' '.repeat(indent + lead) + head + number + ' '.repeat(behind) + tail + remark;
}

/** For each row what the one before it says that is no remark; null where a blank line or nothing comes before. */
function beforeEach(rows: readonly Row[], what: keyof Indentation): (number | null)[] {
  let before: number | null = null;
  return rows.map((row) => {
    const found = before;
    if (row.kind !== 'remark') before = row.kind === 'blank' ? null : row[what];
    return found;
  });
}

/** Amounts of additions below each other are aligned; remarks and acceptances between them do not part them. */
function alignment(rows: readonly Row[]): ReadonlyMap<Row, Padding> {
  const aligned = new Map<Row, Padding>();
  let together: (Row & StatementRow)[] = [];
  const close = () => {
    for (const [index, padding] of paddings(together.map(({ parts }) => parts)).entries()) {
      aligned.set(together[index]!, padding);
    }
    together = [];
  };
  for (const row of rows) {
    const step = row.kind === 'statement' && row.parts.number !== '';
    if (step) together.push(row);
    else if (row.kind !== 'remark' && !(row.kind === 'statement' && row.of === 'accept')) close();
  }
  close();
  return aligned;
}
