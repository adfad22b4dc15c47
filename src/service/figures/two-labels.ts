/** One bag under two labels: dextrose 1.5 % is glucose 1.36 %. */
import { findObservable, formatQuantity, type Reference, unit } from '../../engine/index.ts';
import { resultOf, type WorkedClaim, type WorkedMixture, type WorkedNoteModel } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';

/** Drawn where two claims that hold count the same solute in different forms of its crystal. */
export function twoLabelsFigure(mixture: WorkedMixture, model: WorkedNoteModel, reference: Reference): readonly Tree[] {
  const labels = model.claims.flatMap((claim) => labelOf(claim, mixture));
  const first = labels[0];
  const second = labels.find(({ form, family }) => family === first?.family && form !== first.form);
  const observable = first && findObservable(first.family);
  if (!second || !observable || !mixture.contents) return [];
  const found = resultOf(mixture.contents, observable, unit('mmol/L'), reference);
  if (!found.ok) return [];
  const same = `the same ${formatQuantity(found.value, 'mmol/L')} in solution`;
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'two-labels',
        name: 'One bag, two labels',
        sentence: `‘${first.text}’ counts ${first.form}, ‘${second.text}’ counts ${second.form}: ${same}.`,
        same,
        labels: [first, second].map(({ text, form }) => ({ text, form })) as [Label, Label],
      },
    },
  ];
}

interface Label {
  readonly text: string;
  readonly form: string;
}

function labelOf(
  { node, block, observable, outcome }: WorkedClaim,
  { entity }: WorkedMixture,
): readonly (Label & { readonly family: string })[] {
  const inside = block === entity.block && node.span.start > entity.header.start && node.span.end <= entity.end;
  const { substance } = observable;
  if (!inside || !substance || outcome.kind !== 'number' || !outcome.holds || !outcome.unit) return [];
  const byMass = outcome.unit.percent || outcome.unit.dimension.over === 'mass';
  if (!byMass) return [];
  const text = `${observable.name} ${formatQuantity(outcome.claimed, outcome.unit.symbol, 12)}`;
  return [{ text, form: substance.name, family: substance.family }];
}
