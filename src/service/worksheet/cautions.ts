/** What the note's findings say of one mixture, of what it is made from, and of the orders that give it. */
import { type Findings, findingsOf } from '../../checks/findings.ts';
import { type Finding, messageOf } from '../../checks/index.ts';
import type { WorkedMixture, WorkedNoteModel } from '../../note/index.ts';
import { type Inline, plain } from '../../text/tree.ts';
import type { Lines } from '../lines.ts';
import { madeFrom, placeOf } from '../places.ts';
import { wordingInTerms } from '../terms.ts';

export interface Cautions {
  readonly items: readonly Inline[];
  /** Errors that stand open. */
  readonly errors: number;
}

const CALLED = { error: 'Error', warning: 'Warning', information: 'For information' } as const;

export function cautionsOf(mixture: WorkedMixture, model: WorkedNoteModel, lines: Lines): Cautions {
  const places = [...madeFrom(mixture.entity, model), ...ordersOf(mixture, model).map(({ entity }) => entity)].map(
    placeOf,
  );
  const about = ({ at }: Finding) => places.some(({ start, end }) => at.start >= start && at.end <= end);
  const { open, accepted }: Findings = findingsOf(model);
  const told = (finding: Finding): string => {
    const { line } = lines.at(finding.at.start);
    return `line ${line + 1}, ${finding.code}: ${messageOf(wordingInTerms(finding.wording, model.policy.terms))}`;
  };
  const here = open.filter(about);
  return {
    items: [
      ...here.flatMap((finding) =>
        finding.severity === 'hint'
          ? []
          : [[{ text: CALLED[finding.severity], weight: 'strong' as const }, { text: `, ${told(finding)}` }]],
      ),
      ...accepted
        .filter(({ finding }) => about(finding))
        .map(({ finding, reason }) => plain(`Accepted because ‘${reason}’, ${told(finding)}`)),
    ],
    errors: here.filter(({ severity }) => severity === 'error').length,
  };
}

/** Orders that give it, as far as they are worked out. */
export function ordersOf({ entity }: WorkedMixture, { orders }: WorkedNoteModel) {
  return orders.filter(({ mixture, contents }) => mixture?.entity === entity && contents);
}
