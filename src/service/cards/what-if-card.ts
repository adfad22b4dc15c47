/** A `what if` line as a table: a row for each figure taken, a column for each result. */
import { findingOf } from '../../checks/index.ts';
import { formatDecimal, formatQuantity, type Reference, SODIUM_ERROR } from '../../engine/index.ts';
import { rangeText, resultCell, type Shown, valueText, type WhatIf, type WhatIfRow } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { answerText } from './results-text.ts';

export function whatIfTable(whatIf: WhatIf, reference: Reference): Tree {
  const { rows } = whatIf;
  const columns = columnsOf(rows);
  const several = new Set(columns.map(({ subject }) => subject)).size > 1;
  const title = ({ subject, observable, unit }: Shown) =>
    [several ? `${subject}: ${observable.name}` : observable.name, unit?.symbol].filter(Boolean).join(', ');
  return {
    kind: 'table',
    caption: `${whatIfTitle(whatIf)}. All else is as written, and each row is worked out anew.`,
    columns: [
      { title: '', align: 'text' },
      ...columns.map((shown) => ({ title: title(shown), align: 'number' as const })),
    ],
    rows: rows.map((row) => [
      labelWithFault(whatIf, row),
      ...columns.map(({ index }) => cellOf(row.answers[index] ?? null, reference)),
    ]),
  };
}

/** The table, and how far predictions in it have been off. */
export function whatIfTrees(whatIf: WhatIf, reference: Reference): readonly Tree[] {
  const predicts = columnsOf(whatIf.rows).some(({ observable }) => observable.kind.startsWith('predicted-sodium'));
  const { least, most } = SODIUM_ERROR;
  const missed = `Such predictions of serum sodium missed by ${formatDecimal(least, 2)} to ${formatDecimal(most, 2)} mmol/L: measure.`;
  return [
    whatIfTable(whatIf, reference),
    ...(predicts ? [{ kind: 'paragraph', inline: plain(missed) } satisfies Tree] : []),
  ];
}

/** `adult with a weight of 40 kg, 70 kg or 100 kg`. */
function whatIfTitle({ entity, figure, node, block }: WhatIf): string {
  const name = entity.name?.text ?? block.text.slice(entity.header.start, entity.header.end);
  const values = node.values.map(({ number, unit }) => formatQuantity(number.value, unit.unit.symbol, 12));
  const listed = [values.slice(0, -1).join(', '), values.at(-1)!].filter(Boolean).join(' or ');
  switch (entity.kind) {
    case 'patient':
      return `${name} with a ${figure} of ${listed}`;
    case 'give':
      return `${name} ${figure} ${listed}`;
    default:
      return `${name} with ${listed} withdrawn${whatIfWithdraws({ entity }) ? '' : ' after the first step'}`;
  }
}

function whatIfWithdraws({ entity }: Pick<WhatIf, 'entity'>): boolean {
  return entity.body.some(({ kind }) => kind === 'withdraw');
}

/** What a row is called: `70 kg (as written)`, `150 mL withdrawn`. */
export function rowLabel({ entity, figure }: WhatIf, { value, asWritten }: WhatIfRow): string {
  const written = asWritten ? ' (as written)' : '';
  const text = value && formatQuantity(value.number.value, value.unit.unit.symbol, 12);
  if (entity.kind === 'mixture') {
    return `${!value || value.number.value.isZero() ? 'nothing' : text} withdrawn${written}`;
  }
  if (text) return text + written;
  return entity.kind === 'patient' ? `no ${figure}${written}` : 'as written';
}

function labelWithFault(whatIf: WhatIf, row: WhatIfRow): string {
  const label = rowLabel(whatIf, row);
  if (!row.fault) return label;
  const { read, why } = findingOf(row.fault).wording;
  return `${label}: no results. ${read} ${why}`;
}

/** One for each result that any row has, with its place among the answers. */
function columnsOf(rows: readonly WhatIfRow[]): readonly (Shown & { readonly index: number })[] {
  const asked = rows[0]?.answers.length ?? 0;
  return Array.from({ length: asked }, (_, index) => {
    const shown = rows.map(({ answers }) => answers[index] ?? null).find((answer) => answer !== null);
    return shown ? { ...shown, index } : null;
  }).filter((column) => column !== null);
}

function cellOf(shown: Shown | null, reference: Reference): string {
  if (!shown) return '–';
  const { held, observable, answer, unit } = shown;
  if (held) return resultCell(held, observable, reference);
  if (!answer.ok) return answerText(answer, observable, unit);
  return `${valueText(answer.value, null, answer.range)}${rangeText(answer.range, '')}`;
}
