/** What holds of the Bundle of any mixture and order. Where a rule of FHIR is named it is of https://hl7.org/fhir/R4/. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Contents } from '../../src/engine/index.ts';
import { fenced } from '../annotated.ts';
import { runs } from '../runs.ts';
import { exportedNote } from './exported.ts';
import { amountsIn, expectAmounts, problems, resources } from './fhir-bundle.ts';

describe('any mixture and order', () => {
  const volume = fc.constantFrom('1 mL', '33.3 mL', '250 mL', '1/3 L', '1 L', '0.000001 mL', '1000000 L');
  const fluid = fc.constantFrom(
    'sodium chloride 0.9%',
    'dextrose 5%',
    "lactated Ringer's",
    'potassium chloride 2 mmol/mL',
    'water',
    'own',
    'label',
    'magnesium sulfate 50% in water',
    'albumin 20%',
  );
  const dry = fc.constantFrom(
    '9 g sodium chloride',
    '1 mmol magnesium sulfate',
    '50 units drug',
    '4 mcg drug',
    '2 g dextrose',
  );
  const line = fc.oneof(
    fc.tuple(volume, fluid).map(([amount, of]) => `${amount} ${of}`),
    fc.tuple(fc.integer({ min: 1, max: 7 }), volume, fluid).map(([count, amount, of]) => `${count} x ${amount} ${of}`),
    dry,
    fc.tuple(dry, volume, fluid).map(([amount, of, vehicle]) => `${amount} in ${of} ${vehicle}`),
    fc.tuple(volume, fluid).map(([to, of]) => `${of} to ${to}`),
    volume.map((amount) => `withdraw ${amount}`),
    fc.tuple(volume, fluid).map(([amount, of]) => `exchange ${amount} for ${of}`),
    volume.map((amount) => `${amount} "vitamins" by volume`),
  );
  const order = fc.tuple(
    fc.constantFrom('give bag', 'give 100 mL bag', 'give 3 x 10 mL label', 'give own', 'give 2 x bag'),
    fc.constantFrom(
      '',
      ' at 7 mL/h',
      ' at 0.3 mL/kg/h',
      ' at 2 units/h of drug',
      ' over 7 min',
      ' over 100 min',
      ' over 3 d',
    ),
    fc.constantFrom('', ' every 3 h', ' every 50 min', ' every 5 d'),
    fc.constantFrom('', ' by mouth', ' by central vein'),
    fc.constantFrom('', ' to child'),
    fc.constantFrom('', ' from 20 min', ' through a set of 20 drops/mL', ' monitored'),
  );
  const OWN = `substance drug
stock label
  sodium 130 mmol/L
  chloride 130 mmol/L
mixture own "Own"
  500 mL dextrose 5%
  10 units drug
patient child
  weight 7.3 kg
  serum potassium 3.15 mmol/L
mixture bag
`;

  it('is refused in words, or valid and true to the engine', () => {
    let written = 0;
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 5 }), order, (lines, clauses) => {
        const note = exportedNote(fenced(`${OWN}  ${lines.join('\n  ')}\n${clauses.join('')} as given`));
        for (const name of ['bag', 'given']) {
          const exported = note.export(name, 'fhir');
          if (!exported.ok) {
            expect(exported.reason).not.toMatch(/undefined|NaN|\.$.*\.$/);
            continue;
          }
          written += 1;
          const made = { text: exported.text, bundle: JSON.parse(exported.text) };
          expect(problems(made)).toEqual([]);
          const given = resources(made.bundle, 'MedicationRequest')[0]?.medicationReference.reference;
          const contents = given
            ? note.model.orders[0]?.perMl
            : note.model.mixtures.find((one) => one.name === name)?.contents;
          expectAmounts(amountsIn(made.bundle, given ?? made.bundle.entry.at(-1).fullUrl), contents as Contents);
          expect(note.export(name, 'csv').ok).toBe(true);
        }
      }),
      runs(300),
    );
    expect(written).toBeGreaterThan(60);
  });
});
