/** The steps of making a mixture up, as vessels. */
import { type Decimal, formatQuantity, isVolume, osmolarity, ZERO } from '../../engine/index.ts';
import type { Block } from '../../markdown/note-text.ts';
import type { WorkedMixture, WorkedStep } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';

export function vesselsFigure({ entity, steps }: WorkedMixture): Tree[] {
  if (steps.length === 0) return [];
  const told = steps.map((step) => ({ step, added: addedName(step, entity.block), withdrawn: withdrawnBy(step) }));
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'vessels',
        name: 'Making it up: the level is the volume, the dots are the osmolarity',
        sentence: `${told.map(({ step, added, withdrawn }, index) => `Step ${index + 1}: ${stepWords(step, added, withdrawn)}`).join(' ')}`,
        steps: told.map(({ step, added, withdrawn }) => ({
          volume: step.after.volume.toNumber(),
          osmolarity: osmolarity(step.after).toNumber(),
          added: step.brings && added ? { volume: step.brings.volume.toNumber(), name: added } : null,
          withdrawn: withdrawn.toNumber(),
        })),
      },
    },
  ];
}

function stepWords({ after, brings }: WorkedStep, added: string | null, withdrawn: Decimal): string {
  const changes = [
    ...(withdrawn.gt(0) ? [`${formatQuantity(withdrawn, 'mL')} withdrawn`] : []),
    ...(added && brings ? [`${formatQuantity(brings.volume, 'mL')} of ${added} added`] : []),
  ];
  return `${changes.join(', ')}; then ${formatQuantity(after.volume, 'mL')} of ${formatQuantity(osmolarity(after), 'mOsm/L')}.`;
}

/** mL taken out by the step. */
function withdrawnBy({ before, after, brings }: WorkedStep): Decimal {
  const taken = before.volume.plus(brings?.volume ?? ZERO).minus(after.volume);
  return taken.gt(0) ? taken : ZERO;
}

/** What is added, as written: a fluid by its name, what is weighed or counted with its amount. */
function addedName({ node }: WorkedStep, { text }: Block): string | null {
  switch (node.kind) {
    case 'withdraw':
      return null;
    case 'by-volume':
      return node.label.text;
    case 'addition': {
      const byVolume = node.amount?.kind === 'unknown' || (node.amount && isVolume(node.amount.unit.unit));
      const { start, end } = byVolume && !node.vehicle ? node.fluid.span : node.span;
      return text.slice(start, end);
    }
    case 'make-up':
    case 'exchange':
      return text.slice(node.fluid.span.start, node.fluid.span.end);
  }
}
