/** What the name of a solute means. */
import { nameKey } from './names.ts';
import { AMBIGUOUS_DATA, FAMILY_DATA } from './reference.ts';
import { type Substance, substanceById } from './substances.ts';
import type { Unit } from './units.ts';

/** Whose names an unqualified solute follows. */
export type Pharmacopoeia = 'USP' | 'Ph. Eur.';

/** What the name of a solute was taken to mean. */
export interface SoluteReading {
  readonly substance: Substance;
  /** How the form was chosen: named outright; only one exists; the pharmacopoeia's default. */
  readonly by: 'name' | 'only-form' | 'pharmacopoeia';
  /**
   * What the words could equally mean: other hydrates where the pharmacopoeia has no default (sodium acetate), or other
   * salts (potassium phosphate); empty otherwise. `formMatters` says for which amounts.
   */
  readonly alternatives: readonly Substance[];
}

const FAMILIES = FAMILY_DATA.map((data) => ({ data, forms: data.forms.map(({ id }) => substanceById(id)!) }));

const READINGS: ReadonlyMap<Pharmacopoeia, ReadonlyMap<string, SoluteReading>> = new Map(
  (['USP', 'Ph. Eur.'] as const).map((pharmacopoeia) => [pharmacopoeia, readingsUnder(pharmacopoeia)]),
);

function readingsUnder(pharmacopoeia: Pharmacopoeia): ReadonlyMap<string, SoluteReading> {
  const readings = new Map<string, SoluteReading>();
  for (const { data, forms } of FAMILIES) {
    for (const { texts, default: usual } of data.names) {
      for (const text of texts) readings.set(nameKey(text), unqualified(forms, usual?.[pharmacopoeia]?.form));
    }
    data.forms.forEach(({ words }, index) => {
      if (words.length > 0)
        nameForm(
          readings,
          data.names.flatMap(({ texts }) => texts),
          words,
          forms[index]!,
        );
    });
  }
  for (const { texts, forms } of AMBIGUOUS_DATA) {
    const reading = unqualified(
      forms.map((id) => substanceById(id)!),
      undefined,
    );
    for (const text of texts) readings.set(nameKey(text), reading);
  }
  return readings;
}

/** A form by its own name, its id, its formula, and the family's names with the hydrate before or after. */
function nameForm(
  readings: Map<string, SoluteReading>,
  names: readonly string[],
  words: readonly string[],
  substance: Substance,
): void {
  const reading: SoluteReading = { substance, by: 'name', alternatives: [] };
  const { formula, id, name } = substance;
  const texts = [id, name, ...names.flatMap((text) => words.flatMap((word) => [`${text} ${word}`, `${word} ${text}`]))];
  if (formula?.includes('·')) texts.push(formula);
  for (const text of texts) readings.set(nameKey(text), reading);
}

function unqualified(forms: readonly Substance[], usual: string | undefined): SoluteReading {
  if (forms.length === 1) return { substance: forms[0]!, by: 'only-form', alternatives: [] };
  if (usual) return { substance: substanceById(usual)!, by: 'pharmacopoeia', alternatives: [] };
  return { substance: forms[0]!, by: 'pharmacopoeia', alternatives: forms.slice(1) };
}

/**
 * The solute that words name: generic, pharmacopoeial and chemical names, formulas, with or without the hydrate before or
 * after (`anhydrous dextrose`, `calcium chloride dihydrate`, `cacl2·2h2o`). Null when none is known.
 */
export function findSolute(key: string, pharmacopoeia: Pharmacopoeia = 'USP'): SoluteReading | null {
  const plain = nameKey(key).replace(/[.∙⋅•*](?=\d*h2o$)/, '·');
  return READINGS.get(pharmacopoeia)!.get(plain) ?? null;
}

/** Whether what the words leave open changes an amount in that unit: a hydrate its mass, another salt any amount. */
export function formMatters(reading: Pick<SoluteReading, 'substance' | 'alternatives'>, of: Unit): boolean {
  const { substance, alternatives } = reading;
  if (alternatives.some(({ family }) => family !== substance.family)) return true;
  return alternatives.length > 0 && of.dimension.over === 'mass';
}

/** Every name a solute can be called by, as written in the data. */
export function soluteNames(): readonly string[] {
  const ofFamilies = FAMILIES.flatMap(({ data, forms }) => [
    ...data.names.flatMap(({ texts }) => texts),
    ...(forms.length > 1 ? forms.map(({ name }) => name) : []),
  ]);
  return [...ofFamilies, ...AMBIGUOUS_DATA.flatMap(({ texts }) => texts)];
}
