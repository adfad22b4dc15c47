/** What a liquid holds, each thing once and in one measure, for programs that add it up. */
import {
  type Contents,
  type Decimal,
  decimal,
  massOf,
  nearlyEqual,
  type Particle,
  type Substance,
  ZERO,
} from '../../engine/index.ts';

/** `unit` is one of the notation: g, mg or mcg by the size of the amount; mmol; units. */
export interface Solute {
  readonly name: string;
  readonly amount: Decimal;
  readonly unit: string;
}

/**
 * Salts in mmol, molecules and drugs by their weight, what was counted by its activity in units. Of a fluid that is known
 * by the ions on its label the ions in mmol, as far as no salt gives them. Water is none.
 */
export function solutesOf(contents: Contents): readonly Solute[] {
  const { solutes, masses, activities } = contents;
  return [
    ...[...solutes].flatMap(([substance, mmol]) =>
      substance.id === 'water' || mmol.isZero() ? [] : [counted(substance, mmol)],
    ),
    ...[...masses].map(([{ name }, grams]) => weighed(name, grams)),
    ...[...activities].map(([{ name }, amount]) => ({ name, amount, unit: 'units' })),
    ...fromLabels(contents),
  ].filter(({ amount }) => !amount.isZero());
}

/** The same per litre. */
export function solutesPerLitre(contents: Contents): readonly Solute[] {
  return solutesOf(contents).map(({ name, amount, unit }) => {
    const perLitre = amount.times(LITRE).div(contents.volume);
    const grams = IN_GRAMS[unit];
    return grams ? weighed(name, perLitre.times(grams)) : { name, amount: perLitre, unit };
  });
}

const LITRE = decimal(1000);
const IN_GRAMS: Readonly<Record<string, Decimal>> = { g: decimal(1), mg: decimal('0.001'), mcg: decimal('0.000001') };

function counted(substance: Substance, mmol: Decimal): Solute {
  const isMolecule = substance.gives.every(({ particle }) => particle.charge === 0);
  const grams = isMolecule ? massOf(substance, { in: 'mmol', value: mmol }) : null;
  return grams ? weighed(substance.name, grams) : { name: substance.name, amount: mmol, unit: 'mmol' };
}

export function weighed(name: string, grams: Decimal): Solute {
  const unit = grams.gte(1) ? 'g' : grams.gte('0.001') ? 'mg' : 'mcg';
  return { name, amount: grams.div(IN_GRAMS[unit] as Decimal), unit };
}

/** Ions and molecules of which there is more than the solutes give. */
function fromLabels({ solutes, particles }: Contents): readonly Solute[] {
  const given = new Map<Particle, Decimal>();
  for (const [{ gives }, mmol] of solutes) {
    for (const { particle, count } of gives) given.set(particle, (given.get(particle) ?? ZERO).plus(mmol.times(count)));
  }
  return [...particles].flatMap(([particle, mmol]) => {
    const beyond = given.get(particle) ?? ZERO;
    return nearlyEqual(mmol, beyond) ? [] : [{ name: particle.name, amount: mmol.minus(beyond), unit: 'mmol' }];
  });
}
