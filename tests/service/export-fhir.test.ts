/**
 * Exports as HL7 FHIR R4: valid by an independent package, units by the UCUM package, amounts those of the engine.
 * Where a rule of FHIR is named it is of https://hl7.org/fhir/R4/.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Contents } from '../../src/engine/index.ts';
import { fenced } from '../annotated.ts';
import { HOSTILE_TEXTS } from '../render/hostile-texts.ts';
import { type ExportedNote, exportedFile, exportedNote, WRONG } from './exported.ts';
import { amountsIn, bundleOf, expectAmounts, objects, problems, resources, type Tree } from './fhir-bundle.ts';

const FILES = [
  'demo/ward-orders.md',
  'demo/formulary.md',
  'demo/bag-shortage.md',
  'test-fixtures/orders.md',
  'test-fixtures/quiet.md',
];

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
