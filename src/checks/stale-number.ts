import { formatQuantity } from '../engine/index.ts';
import { check, type FaultOf } from './check.ts';
import { rangeText, valueText } from './wording.ts';

function worksOut({ outcome }: FaultOf<'stale-number'>): string {
  if (outcome.kind === 'tonicity') return `At ${formatQuantity(outcome.osmolarity, 'mOsm/L')} it is ${outcome.found}.`;
  const { found, unit, range } = outcome;
  return `It works out at ${valueText(found, unit)}${rangeText(range, unit?.symbol ?? '')}.`;
}

export const staleNumber = check({
  code: 'stale-number',
  severity: 'warning',
  title: 'A number in the text that is no longer true',
  faults: ['stale-number'],
  words: (fault) => ({
    read: `${fault.observable.name} of ‘${fault.subject}’ stands here as ${fault.written}.`,
    why: worksOut(fault),
    mend: `Write ${fault.current}, or change the mixture.`,
  }),
  fixes: ({ current, edit }) => [
    { title: `Write ‘${current}’, as it works out`, replace: edit.text, at: edit.span, changesNumber: true },
  ],
  page: `A link to \`infusion:NAME/RESULT\` binds the number in its text to a result. The number holds when the result lies
within half a unit of the last place written (77 mmol/L: 76.5 to 77.5); there is no further tolerance. The fix writes the
result in the unit and to the digits that are written, and leaves everything else as it is. \`meniscus update\` and the
command *Update Numbers in This Note* do it for a whole note.`,
  wrong: [
    {
      note: true,
      block:
        '```infusion\nmixture half\n  500 mL sodium chloride 0.9%\n  water to 1 L\n```\n\nThe drip carries [«150 mmol/L»](infusion:half/sodium) of sodium.\n',
    },
    {
      note: true,
      block:
        '```infusion\nmixture half\n  500 mL sodium chloride 0.9%\n  water to 1 L\n```\n\nIn the body it is [«isotonic»](infusion:half/tonicity-in-the-body).\n',
    },
  ],
  right: [
    {
      note: true,
      block:
        '```infusion\nmixture half\n  500 mL sodium chloride 0.9%\n  water to 1 L\n```\n\nThe drip carries [77 mmol/L](infusion:half/sodium) of sodium, and is\n[hypotonic](infusion:half/tonicity-in-the-body).\n',
    },
  ],
});
