/** Cards of what is bound in prose: a number, and a table. */
import { formatDecimal, formatQuantity, type Reference, resultWorking } from '../../engine/index.ts';
import { type BoundNumber, type BoundTable, type Policy, rangeText } from '../../note/index.ts';
import { type Inline, plain, type Tree } from '../../text/tree.ts';
import { sentenceInTerms } from '../terms.ts';
import { CAUTION } from './caution.ts';
import { withSubject, workingLines } from './mixture-card.ts';
import { comparisonTable } from './results-text.ts';

/** Whether what is written still holds, and how the result comes about. */
export function numberCard(number: BoundNumber, policy: Policy): readonly Tree[] {
  const { subject, observable, written, stale } = number;
  const holds = stale ? 'No longer true' : 'Still true';
  const working = workingOf(number, policy);
  return [
    { kind: 'heading', text: subject.name, aside: observable.name },
    { kind: 'paragraph', inline: plain(`${holds}: ${written} is written, and ${foundText(number)}.`) },
    ...(working.length > 0
      ? ([
          { kind: 'paragraph', inline: [{ text: 'How it was worked out', weight: 'strong' }] },
          { kind: 'list', items: working },
        ] as const)
      : []),
    CAUTION,
  ];
}

function foundText({ outcome }: BoundNumber): string {
  if (outcome.kind === 'tonicity') return `${formatQuantity(outcome.osmolarity, 'mOsm/L')} is ${outcome.found}`;
  const { found, unit, range } = outcome;
  const told = unit ? formatQuantity(found, unit.symbol, 6) : formatDecimal(found, 6);
  return `it works out at ${told}${rangeText(range, unit?.symbol ?? '')}`;
}

/** Of a mixture its lines' and results' own working; of another fluid that of the result. */
function workingOf({ subject, observable }: BoundNumber, policy: Policy): Inline[] {
  const { mixture, held } = subject;
  if (!held) return [];
  if (mixture) return workingLines(mixture, held.contents, policy);
  return resultWorking(held.contents, policy.reference)
    .filter(({ of }) => of === observable.name)
    .map((step) => plain(sentenceInTerms(withSubject(step), policy.terms)));
}

export function tableCard({ comparison, stale }: BoundTable, reference: Reference): readonly Tree[] {
  const holds = stale ? 'The table below is no longer true; it works out so:' : 'The table below is still true.';
  return [
    { kind: 'heading', text: 'Comparison' },
    { kind: 'paragraph', inline: plain(holds) },
    comparisonTable(comparison, reference),
    CAUTION,
  ];
}
