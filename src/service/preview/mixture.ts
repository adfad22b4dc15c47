/** A mixture or a stock in full: what a hover card has no room for. */
import { type Contents, cancelling, formatQuantity, type WorkingStep } from '../../engine/index.ts';
import type { WorkedMixture, WorkedNoteModel } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { bagFigure, compositionTable, firstNumbers, verdict } from '../cards/composition.ts';
import { furtherNumbers, ranges, taken, withheldCard, withSubject, workingLines } from '../cards/mixture-card.ts';
import { measuredText, solvedText } from '../cards/solved.ts';
import { ionFigure } from '../figures/ion-columns.ts';
import { twoLabelsFigure } from '../figures/two-labels.ts';
import { vesselsFigure } from '../figures/vessels.ts';
import type { Lines } from '../lines.ts';

/** `besides`: findings and answers, which stand below the verdict. */
export function mixtureInFull(
  mixture: WorkedMixture,
  model: WorkedNoteModel,
  lines: Lines,
  besides: readonly Tree[],
): readonly Tree[] {
  const { contents, cause } = mixture;
  if (!contents) return [...withheldCard(mixture, lines.at(cause?.start ?? 0).line + 1, null), ...besides];
  const { policy } = model;
  const { reference, terms } = policy;
  const title = mixture.entity.title?.text || mixture.name;
  return [
    { kind: 'heading', text: title, aside: formatQuantity(contents.volume, 'mL') },
    { kind: 'paragraph', inline: plain(verdict(contents, reference)) },
    firstNumbers(contents, policy),
    ...solved(mixture),
    ...besides,
    ...twoLabelsFigure(mixture, model, reference),
    ...vesselsFigure(mixture),
    bagFigure(contents, reference),
    ...ionFigure(title, contents, terms),
    compositionTable(contents, policy, 'whole bag'),
    { kind: 'folded', title: 'How it was worked out', body: working(mixture, contents, model) },
  ];
}

function working(mixture: WorkedMixture, contents: Contents, { policy }: WorkedNoteModel): readonly Tree[] {
  return [
    { kind: 'list', items: workingLines(mixture, contents, policy, Number.POSITIVE_INFINITY, examined) },
    furtherNumbers(contents, policy.reference),
    ...ranges(mixture, contents, policy.reference),
    ...taken(mixture, policy.terms),
  ];
}

/** As in an examination: with what cancels, in words. */
function examined(step: WorkingStep): string {
  const cancels = cancelling(step);
  return `${withSubject(step)}${cancels ? ` (${cancels})` : ''}`;
}

function solved({ solved: all, entity }: WorkedMixture): Tree[] {
  const items = all.map((one) => {
    const { block } = entity;
    const line = block.text.split('\n')[one.line]?.trim() ?? '';
    const measured = measuredText(one);
    return plain(`${line}: ${solvedText(one)}.${measured ? ` ${measured}` : ''}`);
  });
  return items.length > 0 ? [{ kind: 'list', items }] : [];
}
