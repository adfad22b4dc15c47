import { describe, expect, it } from 'vitest';
import {
  findIon,
  findObservable,
  findShorthand,
  findSolute,
  findStockFluid,
  findUnit,
  fixedObservables,
  formMatters,
  ionObservable,
  ionOf,
  type Pharmacopoeia,
  particleById,
  substances,
} from '../../src/engine/index.ts';

describe('findSolute', () => {
  // Which form an unqualified name means: dextrose injections are labelled as the hydrous form, calcium chloride injections as
  // the dihydrate, magnesium sulfate injections as the heptahydrate (United States product labels); glucose 5 % of the
  // guideline table in NICE CG174 is 278 mmol/L, which is anhydrous. The Ph. Eur. column is from memory.
  it.each<[string, Pharmacopoeia, string, string]>([
    ['dextrose', 'USP', 'dextrose-monohydrate', 'pharmacopoeia'],
    ['dextrose', 'Ph. Eur.', 'glucose-anhydrous', 'pharmacopoeia'],
    ['glucose', 'USP', 'glucose-anhydrous', 'pharmacopoeia'],
    ['calcium chloride', 'USP', 'calcium-chloride-dihydrate', 'pharmacopoeia'],
    ['cacl2', 'USP', 'calcium-chloride-dihydrate', 'pharmacopoeia'],
    ['magnesium chloride', 'USP', 'magnesium-chloride-hexahydrate', 'pharmacopoeia'],
    ['magnesium sulphate', 'Ph. Eur.', 'magnesium-sulfate-heptahydrate', 'pharmacopoeia'],
    ['mgso4', 'USP', 'magnesium-sulfate-heptahydrate', 'pharmacopoeia'],
    ['sodium chloride', 'USP', 'sodium-chloride', 'only-form'],
    ['nacl', 'USP', 'sodium-chloride', 'only-form'],
    ['kcl', 'USP', 'potassium-chloride', 'only-form'],
    ['nahco3', 'USP', 'sodium-bicarbonate', 'only-form'],
    ['sodium hydrogen carbonate', 'USP', 'sodium-bicarbonate', 'only-form'],
    ['anhydrous dextrose', 'USP', 'glucose-anhydrous', 'name'],
    ['dextrose anhydrous', 'USP', 'glucose-anhydrous', 'name'],
    ['glucose monohydrate', 'Ph. Eur.', 'dextrose-monohydrate', 'name'],
    ['hydrous dextrose', 'Ph. Eur.', 'dextrose-monohydrate', 'name'],
    ['anhydrous calcium chloride', 'USP', 'calcium-chloride-anhydrous', 'name'],
    ['cacl2·2h2o', 'USP', 'calcium-chloride-dihydrate', 'name'],
    ['mgso4.7h2o', 'USP', 'magnesium-sulfate-heptahydrate', 'name'],
    ['sodium acetate trihydrate', 'USP', 'sodium-acetate-trihydrate', 'name'],
    ['calcium gluconate', 'USP', 'calcium-gluconate-monohydrate', 'pharmacopoeia'],
    ['water for injections', 'USP', 'water', 'only-form'],
    ['kc2h3o2', 'USP', 'potassium-acetate', 'only-form'],
    ['calcium glucarate', 'USP', 'calcium-saccharate-tetrahydrate', 'only-form'],
    ['sodium dihydrogen phosphate dihydrate', 'Ph. Eur.', 'monobasic-sodium-phosphate-dihydrate', 'name'],
    ['monobasic sodium phosphate monohydrate', 'USP', 'monobasic-sodium-phosphate-monohydrate', 'name'],
    ['disodium hydrogen phosphate heptahydrate', 'USP', 'dibasic-sodium-phosphate-heptahydrate', 'name'],
    ['na2hpo4·12h2o', 'USP', 'dibasic-sodium-phosphate-dodecahydrate', 'name'],
    ['potassium dihydrogen phosphate', 'USP', 'monobasic-potassium-phosphate', 'only-form'],
    ['k2hpo4', 'USP', 'dibasic-potassium-phosphate', 'only-form'],
    ['ammonium chloride', 'USP', 'ammonium-chloride', 'only-form'],
    ['d-mannitol', 'USP', 'mannitol', 'only-form'],
    ['glycerin', 'USP', 'glycerol', 'only-form'],
    ['carbamide', 'USP', 'urea', 'only-form'],
    ['trometamol', 'Ph. Eur.', 'tromethamine', 'only-form'],
    ['tris', 'USP', 'tromethamine', 'only-form'],
    ['sodium citrate', 'Ph. Eur.', 'sodium-citrate-dihydrate', 'pharmacopoeia'],
    ['trisodium citrate dihydrate', 'USP', 'sodium-citrate-dihydrate', 'name'],
    ['anhydrous citric acid', 'USP', 'citric-acid-anhydrous', 'name'],
    ['saccharose', 'USP', 'sucrose', 'only-form'],
    ['aminoacetic acid', 'USP', 'glycine', 'only-form'],
    ['human albumin', 'Ph. Eur.', 'albumin', 'only-form'],
    ['amino acids', 'USP', 'amino-acids', 'only-form'],
  ])('%s under %s is %s, by %s', (key, pharmacopoeia, id, by) => {
    const reading = findSolute(key, pharmacopoeia)!;
    expect([reading.substance.id, reading.by, reading.alternatives]).toEqual([id, by, []]);
  });

  it('leaves the form of sodium acetate open', () => {
    const { substance, alternatives } = findSolute('sodium acetate')!;
    expect([substance, ...alternatives].map(({ name }) => name)).toEqual([
      'sodium acetate anhydrous',
      'sodium acetate trihydrate',
    ]);
  });

  it.each([
    // United States Pharmacopeia: sodium citrate and citric acid anhydrous or hydrated; monobasic sodium phosphate anhydrous, with
    // one molecule of water, or with two. The mass depends on it, mmol do not.
    ['sodium citrate', ['sodium citrate dihydrate', 'sodium citrate anhydrous']],
    ['citric acid', ['citric acid anhydrous', 'citric acid monohydrate']],
    [
      'monobasic sodium phosphate',
      [
        'monobasic sodium phosphate monohydrate',
        'monobasic sodium phosphate anhydrous',
        'monobasic sodium phosphate dihydrate',
      ],
    ],
  ])('leaves the form of %s open for a mass', (key, names) => {
    const reading = findSolute(key)!;
    expect([reading.substance, ...reading.alternatives].map(({ name }) => name)).toEqual(names);
    expect(['g', 'g/L', '%'].map((symbol) => formMatters(reading, findUnit(symbol)!))).toEqual([true, true, true]);
    expect(['mmol', 'mEq/L'].map((symbol) => formMatters(reading, findUnit(symbol)!))).toEqual([false, false]);
  });

  it('leaves open which salt a phosphate is, for any amount', () => {
    // 15 mmol of phosphorus bring 15 mmol of potassium as the monobasic salt, 30 as the dibasic one.
    const reading = findSolute('potassium phosphate')!;
    expect([reading.substance, ...reading.alternatives].map(({ name }) => name)).toEqual([
      'monobasic potassium phosphate',
      'dibasic potassium phosphate',
    ]);
    for (const symbol of ['mmol', 'mEq', 'g', 'mmol/mL']) expect(formMatters(reading, findUnit(symbol)!)).toBe(true);
    expect(findSolute('sodium phosphate')!.alternatives).toHaveLength(6);
    expect(formMatters(findSolute('sodium chloride')!, findUnit('g')!)).toBe(false);
    expect(findStockFluid('potassium phosphates')).not.toBeNull();
  });

  it('reads every substance by its own name, formula and id', () => {
    for (const substance of substances()) {
      expect(findSolute(substance.name)!.substance, substance.name).toBe(substance);
      expect(findSolute(substance.id)!.substance, substance.id).toBe(substance);
      const { formula } = substance;
      if (formula?.includes('·')) expect(findSolute(formula)!.substance).toBe(substance);
    }
  });

  it('knows nothing else', () => {
    for (const key of ['', 'sodium', 'sodum chloride', 'constructor', 'chloride sodium'])
      expect(findSolute(key)).toBeNull();
  });
});

describe('other names', () => {
  it('reads ions by name, not by symbol', () => {
    expect(findIon('sodium')!.charge).toBe(1);
    expect(findIon('sulphate')!.id).toBe('sulfate');
    expect(findIon('hydrogen carbonate')!.id).toBe('bicarbonate');
    expect(findIon('na+')).toBeNull();
    expect(findIon('dextrose')).toBeNull();
    expect(findIon('ammonium')!.charge).toBe(1);
  });

  it('reads ions that differ by protons only as one', () => {
    const phosphate = findIon('inorganic phosphate')!;
    expect(phosphate.forms.map(({ name, charge }) => [name, charge])).toEqual([
      ['dihydrogen phosphate', -1],
      ['hydrogen phosphate', -2],
    ]);
    expect([phosphate.id, phosphate.charge, phosphate.molarMass!.toString()]).toEqual(['phosphate', null, '30.974']);
    expect(findIon('phosphorus')).toBe(phosphate);
    expect(ionOf(phosphate.forms[0]!)).toBe(phosphate);
    expect(findIon('hydrogen phosphate')!.charge).toBe(-2);
    expect(ionOf(particleById('citric-acid')!)!.id).toBe('citrate');
    expect(ionOf(particleById('sodium')!)).toBe(findIon('sodium'));
    expect(ionOf(particleById('urea')!)).toBeNull();
  });

  it.each([
    ["ringer's", 'ringers'],
    ["lactated ringer's", 'lactated-ringers'],
    ['Ringer’s lactate', 'lactated-ringers'],
    ['ringers lactate', 'lactated-ringers'],
    ["hartmann's solution", 'compound-sodium-lactate'],
    ['compound sodium lactate', 'compound-sodium-lactate'],
    ['multiple electrolytes injection type 1', 'multiple-electrolytes-type-1'],
  ])('reads the stock fluid %s', (key, id) => {
    expect(findStockFluid(key)!.id).toBe(id);
  });

  // Trade shorthand: common practice, no source.
  it.each([
    ['d5w', 'dextrose 5% in water', []],
    ['ns', 'sodium chloride 0.9%', []],
    ['normal saline', 'sodium chloride 0.9%', []],
    ['1/2 ns', 'sodium chloride 0.45%', []],
    ['½ ns', 'sodium chloride 0.45%', []],
    ['½ns', 'sodium chloride 0.45%', []],
    ['half normal saline', 'sodium chloride 0.45%', []],
    ['lr', "lactated Ringer's", []],
    ['d5ns', 'dextrose 5% in sodium chloride 0.9%', []],
    ['d5 ns', 'dextrose 5% in sodium chloride 0.9%', []],
    ['d5 1/2 ns', 'dextrose 5% in sodium chloride 0.45%', []],
    ['d5 ½ns', 'dextrose 5% in sodium chloride 0.45%', []],
    ['d5lr', "dextrose 5% in lactated Ringer's", []],
    ['d5 lr', "dextrose 5% in lactated Ringer's", []],
    ['swfi', 'water', []],
    ['acd-a', 'anticoagulant citrate dextrose solution A', []],
    ['ors', 'oral rehydration salts', []],
    ['0.45 ns', 'sodium chloride 0.45%', ['sodium chloride 0.405%']],
    ['.45ns', 'sodium chloride 0.45%', ['sodium chloride 0.405%']],
    ['d5 0.45 ns', 'dextrose 5% in sodium chloride 0.45%', ['dextrose 5% in sodium chloride 0.405%']],
    ['1/4 ns', 'sodium chloride 0.225%', ['sodium chloride 0.2%']],
  ])('reads %s as %s, or %j', (key, means, alternatives) => {
    expect(findShorthand(key)).toMatchObject({ means, alternatives });
  });

  it('writes a number before normal saline as the trade does', () => {
    const read = (key: string) => {
      const found = findShorthand(key);
      return found && [found.text, found.means];
    };
    expect(read('.45ns')).toEqual(['0.45 NS', 'sodium chloride 0.45%']);
    expect(read('0.3% normal saline')).toEqual(['0.3 NS', 'sodium chloride 0.3%']);
    expect(read('d5 0.45 ns')).toEqual(['D5 0.45 NS', 'dextrose 5% in sodium chloride 0.45%']);
    expect(read('d10 .2 ns')).toEqual(['D10 0.2 NS', 'dextrose 10% in sodium chloride 0.2%']);
    expect(read('0.45 ns bag')).toBeNull();
  });

  it('takes nothing else for shorthand', () => {
    for (const key of ['', 'd5', 'w', '45 ns', 'd50.45ns', 'sodium chloride', '1'.repeat(50)])
      expect(findShorthand(key)).toBeNull();
  });
});

describe('observables', () => {
  it('reads every name and alias of the fixed table', () => {
    for (const observable of fixedObservables()) {
      for (const key of [observable.key, ...observable.aliases]) expect(findObservable(key)).toBe(observable);
      expect(findObservable(observable.id)).toBe(observable);
    }
  });

  it('reads solutes as added, by family', () => {
    expect(findObservable('glucose')).toMatchObject({ id: 'dextrose', kind: 'solute', unit: 'mmol/L', total: 'mmol' });
    expect(findObservable('dextrose')!.substance!.id).toBe('dextrose-monohydrate');
    expect(findObservable('dextrose', 'Ph. Eur.')!.substance!.id).toBe('glucose-anhydrous');
    expect(findObservable('calcium chloride')!.id).toBe('calcium-chloride');
    expect(findObservable('elemental calcium')).toMatchObject({ id: 'calcium', elemental: true });
    for (const key of ['water', 'elemental', 'elemental dextrose', 'elemental sodium load', 'colour']) {
      expect(findObservable(key)).toBeNull();
    }
    expect(findObservable('elemental elemental calcium')).toBeNull();
  });

  it('reads ions that the fixed table leaves out, and phosphates by phosphorus', () => {
    expect(findObservable('ammonium')).toMatchObject({ id: 'ammonium', kind: 'ion', unit: 'mmol/L', total: 'mmol' });
    expect(findObservable('phosphorus')).toBe(findObservable('phosphate'));
    expect(findObservable('elemental phosphorus')).toMatchObject({ name: 'elemental phosphorus', id: 'phosphate' });
    // Which salt is asked for is open.
    expect(findObservable('potassium phosphate')).toBeNull();
    expect(findObservable('dibasic potassium phosphate')!.id).toBe('dibasic-potassium-phosphate');
    expect(findObservable('albumin')).toMatchObject({ unit: 'g/L', total: 'g' });
  });

  it('asks for an ion of the fixed table as the table does', () => {
    for (const name of ['sodium', 'phosphate']) expect(ionObservable(findIon(name)!)).toBe(findObservable(name));
    expect(ionObservable(findIon('ammonium')!)).toMatchObject({ id: 'ammonium', kind: 'ion', name: 'ammonium' });
  });
});
