/**
 * Units and molar masses against three programs of other people: mathjs, GNU units and python3-periodictable. The last
 * two are looked for on the machine (Debian's packages `units` and `python3-periodictable`); in continuous integration
 * they have to be there, elsewhere their absence is said.
 */
import { spawnSync } from 'node:child_process';
import { type Unit, unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { findUnit, mmolOfGrams, substances } from '../../src/engine/index.ts';

/** Our symbol and two others' spelling; what they do not know (mEq, Osm, drops, activity) is left to the UCUM package. */
const UNITS: readonly (readonly [
  ours: string,
  mathjs: string,
  gnu: string,
  base: readonly [mathjs: string, gnu: string],
])[] = [
  ['kg', 'kg', 'kg', ['g', 'g']],
  ['mg', 'mg', 'mg', ['g', 'g']],
  ['mcg', 'ug', 'microgram', ['g', 'g']],
  ['ng', 'ng', 'ng', ['g', 'g']],
  ['L', 'L', 'liter', ['ml', 'ml']],
  ['dL', 'dl', 'dl', ['ml', 'ml']],
  ['mol', 'mol', 'mol', ['mmol', 'mmol']],
  ['micromol', 'umol', 'micromol', ['mmol', 'mmol']],
  ['s', 's', 's', ['h', 'hour']],
  ['min', 'minute', 'min', ['h', 'hour']],
  ['d', 'day', 'day', ['h', 'hour']],
  ['wk', 'week', 'week', ['h', 'hour']],
  ['kJ', 'kJ', 'kJ', ['kJ', 'kJ']],
  ['cm', 'cm', 'cm', ['m', 'm']],
  ['mmol/L', 'mmol/L', 'mmol/liter', ['mmol/ml', 'mmol/ml']],
  ['mg/dL', 'mg/dl', 'mg/dl', ['g/ml', 'g/ml']],
  ['g/mL', 'g/ml', 'g/ml', ['g/ml', 'g/ml']],
  ['mL/min', 'ml/minute', 'ml/min', ['ml/h', 'ml/hour']],
];

/** The engine counts energy in kcal: 4.184 kJ by definition. */
const KJ_IN_KCAL = 4.184;

function factorOf(ours: string): number {
  const factor = findUnit(ours)!.factor.toNumber();
  return ours === 'kJ' ? factor * KJ_IN_KCAL : factor;
}

/** What a program prints, or null when it is not on the machine. */
function printed(program: string, parameters: readonly string[]): string | null {
  const { status, stdout } = spawnSync(program, parameters, { encoding: 'utf8' });
  return status === 0 ? stdout : null;
}

const gnuUnits = printed('units', ['--version']);
const python = ['/usr/bin/python3', 'python3'].find(
  (program) => printed(program, ['-c', 'import periodictable']) !== null,
);

function missing(found: boolean, what: string, packageName: string): boolean {
  if (found) return false;
  if (process.env.CI) throw new Error(`${what} is missing: install Debian's package ${packageName}`);
  console.warn(`NOT CHECKED: ${what} is not on this machine (Debian's package ${packageName})`);
  return true;
}

describe('mathjs', () => {
  it.each(UNITS)('%s', (ours, theirs, _, [base]) => {
    expect(factorOf(ours)).toBeCloseTo(unit(1, theirs).toNumber(base), 12);
  });

  it.each(substances().flatMap(({ name, molarMass }) => (molarMass ? [[name, molarMass] as const] : [])))(
    'turns 9 g of %s into mmol',
    (_, molarMass) => {
      const theirs = unit(9, 'g').divide(unit(molarMass.toNumber(), 'g/mol')) as Unit;
      expect(mmolOfGrams(findUnit('g')!.factor.times(9), molarMass).toNumber()).toBeCloseTo(theirs.toNumber('mmol'), 9);
    },
  );
});

describe.skipIf(missing(gnuUnits !== null, 'GNU units', 'units'))('GNU units', () => {
  it.each(UNITS)('%s', (ours, _, theirs, [, base]) => {
    const answer = printed('units', ['--terse', '--digits', '15', theirs, base]);
    expect(factorOf(ours)).toBeCloseTo(Number(answer), 12);
  });
});

describe.skipIf(missing(python !== undefined, 'python3-periodictable', 'python3-periodictable'))(
  'python3-periodictable',
  () => {
    // It takes standard atomic weights of 2005 to 2009 and a natural abundance; ours are the abridged ones of 2021.
    it('agrees on every molar mass to 0.02 g/mol', () => {
      const formulas = substances().flatMap(({ name, formula, molarMass }) =>
        formula && molarMass ? [{ name, formula: formula.replace('·', '+'), molarMass: molarMass.toNumber() }] : [],
      );
      const script =
        'import sys, json, periodictable\nprint(json.dumps([periodictable.formula(f).mass for f in json.load(sys.stdin)]))';
      const { stdout } = spawnSync(python!, ['-c', script], {
        input: JSON.stringify(formulas.map(({ formula }) => formula)),
        encoding: 'utf8',
      });
      const masses: readonly number[] = JSON.parse(stdout);
      const apart = formulas.filter(({ molarMass }, index) => Math.abs(molarMass - masses[index]!) > 0.02);
      expect(formulas.length).toBeGreaterThan(40);
      expect(apart).toEqual([]);
    });
  },
);
