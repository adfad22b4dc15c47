/**
 * Exports as HL7 FHIR R4: valid by an independent package, units by the UCUM package, amounts those of the engine.
 * Where a rule of FHIR is named it is of https://hl7.org/fhir/R4/.
 */
import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import fc from 'fast-check';
import { Fhir } from 'fhir';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Contents, type Decimal, massOf, ONE, ZERO } from '../../src/engine/index.ts';
import { fenced } from '../annotated.ts';
import { HOSTILE_TEXTS } from '../render/hostile-texts.ts';
import { runs } from '../runs.ts';
import { type ExportedNote, exportedFile, exportedNote, WRONG } from './exported.ts';

const fhir = new Fhir();
const ucum = UcumLhcUtils.getInstance();
const FILES = [
  'demo/ward-orders.md',
  'demo/formulary.md',
  'demo/bag-shortage.md',
  'test-fixtures/orders.md',
  'test-fixtures/quiet.md',
];

// biome-ignore lint/suspicious/noExplicitAny: a tree of JSON, walked by the rules of FHIR.
type Tree = any;

function bundleOf(note: ExportedNote, name: string): { readonly text: string; readonly bundle: Tree } {
  const exported = note.export(name, 'fhir');
  if (!exported.ok) throw new Error(exported.reason);
  return { text: exported.text, bundle: JSON.parse(exported.text) };
}

function resources(bundle: Tree, type: string): readonly Tree[] {
  return bundle.entry.map(({ resource }: Tree) => resource).filter((one: Tree) => one.resourceType === type);
}

/** Every object below, itself among them. */
function objects(tree: Tree): readonly Tree[] {
  if (typeof tree !== 'object') return [];
  const below = Object.values(tree).flatMap(objects);
  return Array.isArray(tree) ? below : [tree, ...below];
}

/** The package does not have LOINC; loinc.org/2951-2 and loinc.org/2823-3. */
const isLoinc = (_: string, code: string, system?: string) =>
  system === 'http://loinc.org' && ['2951-2', '2823-3'].includes(code);

function problems({ bundle, text }: { readonly bundle: Tree; readonly text: string }): readonly string[] {
  const found = fhir
    .validate(text, { errorOnUnexpected: true, beforeCheckCode: isLoinc })
    .messages.map(({ location, message }) => `${location}: ${message}`);
  const addresses = bundle.entry.map(({ fullUrl }: Tree) => fullUrl);
  // Bundle, bdl-7: an address stands once.
  if (new Set(addresses).size < addresses.length) found.push('an address stands twice');
  for (const one of objects(bundle)) {
    if (one.reference && !addresses.includes(one.reference)) found.push(`no entry ${one.reference}`);
    if (one.system === 'http://unitsofmeasure.org' && ucum.validateUnitString(one.code).status !== 'valid')
      found.push(`no unit of UCUM: ${one.code}`);
    // Quantity, qty-3: a code has a system; and here never a number without a unit.
    if ('value' in one && !(one.system && one.code && one.unit)) found.push(`a bare number: ${one.value}`);
    // Timing, tim-1, tim-2, tim-4, tim-5: a time has a unit and is not below zero.
    if ('duration' in one && !(one.durationUnit && one.duration >= 0)) found.push('a duration without a unit');
    if ('period' in one && !(one.periodUnit && one.period >= 0)) found.push('a period without a unit');
    // JSON: no empty arrays, objects or strings.
    for (const [key, value] of Object.entries(one))
      if (value === '' || value === null || (typeof value === 'object' && Object.keys(value as object).length === 0))
        found.push(`${key} is empty`);
  }
  return found;
}

/** What a Medication holds, by the strengths of its ingredients and theirs: amounts in 1 mL by name, in mmol, g or units. */
function amountsIn(bundle: Tree, reference: string): ReadonlyMap<string, number> {
  const { resource } = bundle.entry.find(({ fullUrl }: Tree) => fullUrl === reference);
  const found = new Map<string, number>();
  const add = (key: string, amount: number) => found.set(key, (found.get(key) ?? 0) + amount);
  for (const { itemReference, itemCodeableConcept, strength } of resource.ingredient ?? []) {
    if (!strength) continue;
    const [of, inMl] = [strength.numerator, strength.denominator].map(({ value, code }: Tree) =>
      code === 'mL' || code === 'L' ? value * (code === 'L' ? 1000 : 1) : value,
    ) as [number, number];
    if (itemReference) {
      for (const [key, amount] of amountsIn(bundle, itemReference.reference)) add(key, (amount * of) / inMl);
    } else {
      const { code } = strength.numerator;
      const grams = { g: 1, mg: 1e-3, ug: 1e-6 }[code as string];
      if (code !== 'mL') add(`${itemCodeableConcept.text} ${grams ? 'g' : code}`, (of * (grams ?? 1)) / inMl);
    }
  }
  return found;
}

/** The same by the engine's contents; a molecule is told in g, and a salt that is weighed dry as well. */
function expectAmounts(found: ReadonlyMap<string, number>, contents: Contents): void {
  const inMl = (amount: Decimal) => amount.div(contents.volume).toNumber();
  const left = new Map(found);
  const take = (key: string) => {
    const amount = left.get(key) ?? 0;
    left.delete(key);
    return amount;
  };
  // Numbers told are rounded to nine digits; `of` is what they are parts of.
  const expectNear = (name: string, told: number, wanted: number, of = wanted) =>
    expect(Math.abs(told - wanted), `${name}: ${told} for ${wanted}`).toBeLessThanOrEqual(1e-7 * of + 1e-25);
  const rest = new Map([...contents.particles].map(([particle, mmol]) => [particle, inMl(mmol)]));
  for (const [substance, mmol] of contents.solutes) {
    const perMl = inMl(mmol);
    for (const { particle, count } of substance.gives) rest.set(particle, (rest.get(particle) ?? 0) - count * perMl);
    if (substance.id === 'water') continue;
    const grams = massOf(substance, { in: 'mmol', value: ONE });
    const told = take(`${substance.name} mmol`) + (grams ? take(`${substance.name} g`) / grams.toNumber() : 0);
    expectNear(substance.name, told, perMl);
  }
  for (const [{ name }, grams] of contents.masses) expectNear(name, take(`${name} g`), inMl(grams));
  for (const [{ name }, units] of contents.activities) expectNear(name, take(`${name} [arb'U]`), inMl(units));
  for (const [particle, beyond] of rest) {
    const all = inMl(contents.particles.get(particle) ?? ZERO);
    expectNear(particle.name, take(`${particle.name} mmol`), beyond, all);
  }
  expect([...left.keys()]).toEqual([]);
}

describe.each(FILES)('every order and mixture of %s', (path) => {
  let note: ExportedNote;
  beforeAll(async () => {
    note = await exportedFile(path);
  });

  it('is a valid Bundle', () => {
    expect(note.names.length).toBeGreaterThan(0);
    for (const name of note.names) {
      const made = bundleOf(note, name);
      expect(made.bundle).toMatchObject({ resourceType: 'Bundle', type: 'collection' });
      expect(problems(made), name).toEqual([]);
    }
  });

  it('holds what the engine finds, its ingredients followed down', () => {
    for (const name of note.names) {
      const { bundle } = bundleOf(note, name);
      const order = note.model.orders.find((one) => one.name === name);
      const mixture = note.model.mixtures.find((one) => one.name === name);
      const given =
        resources(bundle, 'MedicationRequest')[0]?.medicationReference.reference ?? bundle.entry.at(-1).fullUrl;
      expectAmounts(amountsIn(bundle, given), (order?.perMl ?? mixture?.contents) as Contents);
    }
  });

  it('is given as the engine sets it out in time', () => {
    for (const order of note.model.orders) {
      const { bundle } = bundleOf(note, order.name);
      const [request] = resources(bundle, 'MedicationRequest');
      const [{ timing, doseAndRate, route }] = request.dosageInstruction;
      const [{ doseQuantity, rateQuantity }] = doseAndRate;
      expect(request).toMatchObject({ status: 'draft', intent: 'proposal' });
      expect(route?.text).toBe(order.route?.name);
      expect(rateQuantity?.value ?? 0).toBeCloseTo(order.rate?.toNumber() ?? 0, 6);
      const { count = 1, duration, durationUnit, period, periodUnit } = timing?.repeat ?? {};
      const hours = (time: number, unit: string) => time / (unit === 'min' ? 60 : 1);
      if (doseQuantity) {
        if (!order.endless)
          expect(doseQuantity.value * count).toBeCloseTo(order.contents?.volume.toNumber() as number, 6);
        if (rateQuantity) expect(rateQuantity.value * hours(duration, durationUnit)).toBeCloseTo(doseQuantity.value, 4);
      } else expect(order.endless).toBe(true);
      const [first, second] = order.runs;
      if (second) expect(hours(period, periodUnit)).toBeCloseTo(second.start.minus(first?.start ?? 0).toNumber(), 6);
    }
  });
});

describe('a Bundle', () => {
  const BAG = 'mixture bag "A bag"\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL\n';
  const NOTE = fenced(
    `patient child "Bed 7"\n  weight 20 kg\n  serum sodium 140 mmol/L\n${BAG}give 500 mL bag over 10 h by peripheral vein to child as slow`,
  );

  it('gives numbers digit for digit, rounded as it says', () => {
    const { text, bundle } = bundleOf(exportedNote(NOTE), 'slow');
    // 0.9 % is 9 g/L: 9 ÷ 58.44 g/mol = 154 mmol/L, as labels state; the digits are the engine's own.
    expect(text).toContain('"value": 154.004107,');
    expect(text).toContain('"value": 50,');
    expect(text).not.toMatch(/"value": [^,]*(?:[eE]|[\d.]{17})/);
    expect(JSON.stringify(bundle)).toContain('longer ones are rounded to 9');
  });

  it('would not pass with a code, a unit or an address that is none', () => {
    const { text } = bundleOf(exportedNote(NOTE), 'slow');
    const spoilt = (from: string, to: string) => {
      const wrong = text.replace(from, to);
      return problems({ text: wrong, bundle: JSON.parse(wrong) });
    };
    expect(problems({ text, bundle: JSON.parse(text) })).toEqual([]);
    expect(spoilt('"proposal"', '"order-draft"')).toHaveLength(1);
    expect(spoilt('"code": "mL/h"', '"code": "milli"')).toHaveLength(1);
    expect(spoilt('"reference": "urn:uuid:', '"reference": "urn:uuid:0')).toHaveLength(1);
    expect(spoilt('"method"', '"methods"')).toHaveLength(1);
  });

  it('names no patient, whatever the note calls him', () => {
    const { text, bundle } = bundleOf(exportedNote(NOTE), 'slow');
    expect(text).not.toMatch(/child|Bed 7/);
    const [request] = resources(bundle, 'MedicationRequest');
    expect(request.subject).toEqual({ type: 'Patient', display: 'The patient of the note, not identified here' });
    expect(resources(bundle, 'Patient')).toEqual([]);
  });

  it('has the sodium with its LOINC code, the weight by words, and neither with a time', () => {
    const { bundle } = bundleOf(exportedNote(NOTE), 'slow');
    const [weight, sodium, ...others] = resources(bundle, 'Observation');
    expect(others).toEqual([]);
    expect(weight).toMatchObject({ status: 'unknown', code: { text: 'body weight' }, valueQuantity: { value: 20 } });
    expect(weight.code.coding).toBeUndefined();
    // https://loinc.org/2951-2/
    expect(sodium.code.coding).toEqual([
      { system: 'http://loinc.org', code: '2951-2', display: 'Sodium [Moles/volume] in Serum or Plasma' },
    ]);
  });

  it('is the same again, and of another note or place has other addresses except for medications', () => {
    const { text, bundle } = bundleOf(exportedNote(NOTE), 'slow');
    expect(bundleOf(exportedNote(NOTE), 'slow').text).toBe(text);
    const elsewhere = bundleOf(exportedNote(NOTE, 'copy.md'), 'slow').bundle;
    const shared = (of: Tree) => new Set(of.entry.map(({ fullUrl }: Tree) => fullUrl));
    const both = [...shared(bundle)].filter((address) => shared(elsewhere).has(address));
    expect(both).toHaveLength(resources(bundle, 'Medication').length);
    expect(both).toHaveLength(3);
  });

  it('takes from every part what a withdrawal takes', () => {
    const note = exportedNote(
      fenced(
        'mixture changed\n  1 L sodium chloride 0.9%\n  withdraw 250 mL\n  250 mL dextrose 5%\n  exchange 100 mL for water',
      ),
    );
    const { bundle } = bundleOf(note, 'changed');
    const [saline, dextrose, water] = resources(bundle, 'Medication').at(-1).ingredient;
    expect(JSON.stringify(bundle)).toContain('told by what is left of it');
    // By hand: 1000 mL − 250 mL, and of that 9/10; 250 mL × 9/10; 100 mL.
    expect([saline, dextrose, water].map(({ strength }) => strength.numerator.value)).toEqual([675, 225, 100]);
    expectAmounts(amountsIn(bundle, bundle.entry.at(-1).fullUrl), note.model.mixtures[0]?.contents as Contents);
  });

  it('carries warnings, accepted ones with their reason, in the outcome and with the request', () => {
    const order = 'give 100 mL sodium chloride 3% over 1 h by peripheral vein as strong';
    const open = bundleOf(exportedNote(fenced(`patient p\n  weight 60 kg\n${order}`)), 'strong').bundle;
    const [first] = resources(open, 'OperationOutcome')[0].issue;
    expect(first).toMatchObject({ severity: 'warning', code: 'business-rule' });
    expect(first.diagnostics).toMatch(/^line 4: [a-z-]+$/);
    const { length } = first.diagnostics;
    const code = first.diagnostics.slice('line 4: '.length, length);
    const accepting = fenced(`patient p\n  weight 60 kg\n${order}\n  accept ${code} because "watched"`);
    const accepted = bundleOf(exportedNote(accepting), 'strong').bundle;
    const texts = JSON.stringify(resources(accepted, 'OperationOutcome')[0].issue);
    expect(texts).toContain('The note accepts this because ‘watched’.');
    expect(JSON.stringify(resources(accepted, 'MedicationRequest')[0].note)).toContain(code);
  });

  it('says which warnings are of another order for the patient', () => {
    const note = exportedNote(
      fenced(
        'patient p\n  weight 60 kg\ngive 1 L sodium chloride 0.9% over 8 h by peripheral vein to p as slow\n' +
          'give 100 mL dextrose 50% over 4 h by peripheral vein to p as strong',
      ),
    );
    const texts = (name: string) =>
      resources(bundleOf(note, name).bundle, 'OperationOutcome')[0]
        .issue.filter(({ diagnostics = '' }: Tree) => diagnostics.startsWith('line 5: hypertonic-peripheral'))
        .map(({ details }: Tree) => details.text);
    expect(texts('strong')).toEqual([expect.not.stringContaining('another order')]);
    expect(texts('slow')).toEqual([expect.stringMatching(/^In another order for the patient: /)]);
  });

  it('tells parts, a dose that counts something, and what another note gives', async () => {
    const note = await exportedFile('demo/ward-orders.md');
    const [pushes] = resources(bundleOf(note, 'pushes').bundle, 'MedicationRequest')[0].dosageInstruction;
    expect(pushes.text).toBe(
      '300 mL of sodium chloride 3 % in 3 parts of 100 mL, one every 10 min, each over 10 min, at 600 mL/h, by peripheral vein, monitored.',
    );
    expect(pushes.timing.repeat).toEqual({
      count: 3,
      duration: 10,
      durationUnit: 'min',
      frequency: 1,
      period: 10,
      periodUnit: 'min',
    });
    const drip = bundleOf(note, 'drip').bundle;
    expect(resources(drip, 'MedicationRequest')[0].dosageInstruction[0].text).toContain(
      'at 30 mL/h (0.1 mcg/kg/min of norepinephrine)',
    );
    expect(JSON.stringify(drip)).toContain('What is given stands in another note');
  });

  it('gives a dry solute as the note measures it', () => {
    const block = 'mixture bag\n  4 g magnesium sulfate\n  20 mmol potassium chloride\n  water to 1 L';
    const { bundle } = bundleOf(exportedNote(fenced(block)), 'bag');
    const [magnesium, potassium] = resources(bundle, 'Medication').at(-1).ingredient;
    expect(magnesium.strength.numerator).toMatchObject({ value: 4, code: 'g' });
    expect(potassium.strength.numerator).toMatchObject({ value: 20, code: 'mmol' });
  });

  it('of an order without an end has a rate and no dose', () => {
    const { bundle } = bundleOf(
      exportedNote(fenced('give sodium chloride 0.9% at 5 mL/h by peripheral vein as open')),
      'open',
    );
    const [dosage] = resources(bundle, 'MedicationRequest')[0].dosageInstruction;
    expect(dosage.timing).toBeUndefined();
    expect(Object.keys(dosage.doseAndRate[0])).toEqual(['rateQuantity']);
    expect(dosage.text).toContain('until it is stopped');
  });

  it('stays valid and inert with hostile titles', () => {
    for (const hostile of HOSTILE_TEXTS.map((text) => text.replace(/["\r\n]/g, ' '))) {
      const bag = BAG.replace('A bag', () => hostile);
      const order = `give bag over 8 h by peripheral vein as slow\n  accept no-patient because "${hostile} x"`;
      const made = bundleOf(exportedNote(fenced(`${bag}${order}`)), 'slow');
      expect(problems(made), hostile).toEqual([]);
      expect(made.text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/);
      for (const { div } of objects(made.bundle).filter((one) => 'div' in one))
        expect(div.replace(/<\/?(?:div xmlns="http:\/\/www\.w3\.org\/1999\/xhtml"|div|p)>/g, '')).not.toMatch(/[<>]/);
      for (const { text } of resources(made.bundle, 'MedicationRequest')[0].note)
        expect(text.replace(/\\./g, '')).not.toMatch(/[[\]<>`*_~]/);
    }
  });
});

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

describe('what is not written out', () => {
  const reasonOf = (block: string, name: string) => {
    const exported = exportedNote(fenced(block)).export(name, 'fhir');
    return exported.ok ? 'written' : `${exported.withheld ? 1 : 2}: ${exported.reason}`;
  };

  it('says why', () => {
    const bag = 'mixture bag\n  1 L sodium chloride 0.9%\n';
    expect(reasonOf(`${bag}  claim sodium 10 mmol/L`, 'bag')).toMatch(
      /^1: ‘bag’ is not written out, since an error stands open in line 4 \(claim-mismatch\)/,
    );
    expect(reasonOf('mixture bag\n  1 L sodum chloride 0.9%', 'bag')).toMatch(/^1: .*line 3/);
    expect(reasonOf('mixture bag\n  ? mL sodium chloride 23.4%\n  water to 1 L', 'bag')).toMatch(/^1: /);
    expect(reasonOf('give 1 L sodum chloride 0.9% over 8 h as slow', 'slow')).toMatch(/^1: /);
    expect(reasonOf(bag, 'bog')).toBe('2: the note has no order or mixture ‘bog’; did you mean ‘bag’?');
    expect(reasonOf('give 1 L sodium chloride 0.9% over 8 h', 'slow')).toBe(
      '2: the note has no order or mixture ‘slow’; the order of line 2 has no name, which ‘as NAME’ at its end gives it',
    );
    expect(reasonOf(`${bag}${bag}`, 'bag')).toMatch(/^2: .*several \(lines 2, 4\)/);
  });

  it('is the mixture of the demonstration that is claimed ten times too weak', async () => {
    const note = await exportedFile('demo/bag-shortage.md');
    expect(note.export(WRONG, 'fhir')).toMatchObject({ ok: false, withheld: true });
    expect(note.export(WRONG, 'csv')).toMatchObject({ ok: false, withheld: true });
  });

  it('is an order whose patient has another with an error', () => {
    const patient = 'patient p\n  weight 70 kg\n';
    const order = 'give 1 L sodium chloride 0.9% over 8 h by peripheral vein to p as slow\n';
    const wrong = 'give 1 L sodum chloride 0.9% over 8 h by peripheral vein to p as other';
    expect(reasonOf(`${patient}${order}`, 'slow')).toBe('written');
    expect(reasonOf(`${patient}${order}${wrong}`, 'slow')).toMatch(/^1: .*line 5/);
  });
});
