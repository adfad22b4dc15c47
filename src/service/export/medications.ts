/** FHIR Medications: a fluid by its solutes, a mixture by what is put into it. */
import { type Contents, exactText, ONE } from '../../engine/index.ts';
import type { Json } from '../../render/exact-json.ts';
import type { Entries } from './entries.ts';
import type { Part, Product } from './product.ts';
import { solutesOf, solutesPerLitre } from './solutes.ts';
import { concept, list, narrative } from './texts.ts';
import { exact, quantity, ratio } from './ucum.ts';

/** Puts it in, and before it every fluid that it is made of; a reference to it. */
export function medication(entries: Entries, { name, contents, recipe }: Product): Json {
  if (!recipe) return fluid(entries, name, contents);
  const whole = quantity(contents.volume, 'mL');
  const ingredient = recipe.parts.flatMap((part) => ingredients(entries, part, whole));
  return entries.shared({
    resourceType: 'Medication',
    text: narrative([`${name}. Made up in this order:`, ...recipe.lines, inAll(contents)]),
    code: concept(name),
    amount: ratio(whole, { value: exact(ONE), unit: 'recipe', ...UNITY }),
    ingredient: list(ingredient),
  });
}

const UNITY = { system: 'http://unitsofmeasure.org', code: '1' };

function ingredients(entries: Entries, part: Part, whole: Json): readonly Json[] {
  const { contents } = part;
  const byVolume = ratio(quantity(contents.volume, 'mL'), whole);
  switch (part.kind) {
    case 'fluid':
      return [{ itemReference: fluid(entries, part.name, contents), strength: byVolume }];
    case 'uncounted':
      return [{ itemCodeableConcept: concept(part.name), strength: byVolume }];
    case 'solutes':
      return [
        ...part.solutes.map(({ name, amount, unit }) => ({
          itemCodeableConcept: concept(name),
          strength: ratio(quantity(amount, unit), whole),
        })),
        ...unmeasured(contents),
      ];
  }
}

/** `In 1010 mL in all: sodium chloride 154.004107 mmol, potassium chloride 20 mmol.` */
function inAll(contents: Contents): string {
  const held = solutesOf(contents).map(({ name, amount, unit }) => `${name} ${exactText(amount)} ${unit}`);
  const others = contents.uncounted.map((name) => `${name}, of which the amount is not counted`);
  return `In ${exactText(contents.volume)} mL in all: ${[...held, ...others].join(', ') || 'nothing but water'}.`;
}

/** By what a litre of it holds, however much of it there is. */
function fluid(entries: Entries, name: string, contents: Contents): Json {
  const litre = quantity(ONE, 'L');
  const ingredient = solutesPerLitre(contents).map((solute) => ({
    itemCodeableConcept: concept(solute.name),
    strength: ratio(quantity(solute.amount, solute.unit), litre),
  }));
  return entries.shared({
    resourceType: 'Medication',
    text: narrative([name]),
    code: concept(name),
    ingredient: list([...ingredient, ...unmeasured(contents)]),
  });
}

/** Additives that are known by their name alone. */
function unmeasured({ uncounted }: Contents): readonly Json[] {
  return uncounted.map((name) => ({ itemCodeableConcept: concept(name) }));
}
