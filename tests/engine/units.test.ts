import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimal,
  dimensionWords,
  findUnit,
  formatQuantity,
  inUnit,
  isMass,
  isRate,
  isStrength,
  isTime,
  isVolume,
  nearUnits,
  sameDimension,
  UNIT_SYMBOLS,
  type Unit,
  unit,
} from '../../src/engine/index.ts';

const u = (text: string): Unit => findUnit(text)!;
const ATOMS = UNIT_SYMBOLS.filter((symbol) => !symbol.startsWith('%'));

describe('findUnit', () => {
  it.each([
    ['ml', 'mL'],
    ['l', 'L'],
    ['meq', 'mEq'],
    ['mosm', 'mOsm'],
    ['hours', 'h'],
    ['millilitres', 'mL'],
    ['micrograms', 'mcg'],
    ['\u00b5g', 'mcg'],
    ['\u03bcg', 'mcg'],
    ['mmol/l', 'mmol/L'],
    ['milliequivalents/litre', 'mEq/L'],
    ['mcg/kg/min', 'mcg/kg/min'],
    ['mL/kg/hour', 'mL/kg/h'],
    ['m²', 'm2'],
    ['%', '%'],
    ['% w/v', '%'],
    ['% w/w', '% w/w'],
    ['% of body surface', '% of body surface'],
  ])('reads %s as %s', (text, symbol) => {
    expect(u(text).symbol).toBe(symbol);
  });

  it.each([
    'Mg',
    'ML',
    'MEQ',
    'cc',
    'U',
    'IU',
    'M',
    '',
    '/',
    'mg/',
    '/L',
    'mg//L',
    'mg/L/h/d',
    'mg/kg/L/h',
    'mg/h/h',
    'mg / L',
    ' mg',
    'constructor',
    '__proto__',
  ])('takes %j for no unit', (text) => {
    expect(findUnit(text)).toBeNull();
  });

  it('reads kg below as body weight, and below osmoles as water', () => {
    expect(u('mL/kg').dimension.under).toEqual(['body-weight']);
    expect(u('mOsm/kg').dimension.under).toEqual(['water-mass']);
    expect(u('kg').dimension).toEqual({ over: 'mass', under: [] });
  });

  it('is known to exist where the program names it', () => {
    expect(unit('mmol/L')).toEqual(u('mmol/L'));
    expect(() => unit('wibble')).toThrow(new RangeError('no such unit: wibble'));
  });

  it('reads % as g in 100 mL', () => {
    expect(inUnit({ value: decimal('0.9'), unit: u('%') }, u('g/L'))!.toString()).toBe('9');
    expect(u('%').percent).toBe(true);
    expect(u('g/dL').percent).toBe(false);
  });

  it('reads its own spelling back, for every ratio; below stands each kind of measure once', () => {
    const ratios = fc.array(fc.constantFrom(...ATOMS), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(ratios, ([over, ...under]) => {
        const unit = findUnit([over, ...under].join('/'));
        const below = under.map((atom) => (atom === 'kg' ? 'kg' : u(atom).dimension.over));
        expect(unit === null).toBe(new Set(below).size < below.length);
        if (unit) expect(findUnit(unit.symbol)).toEqual(unit);
      }),
    );
    for (const symbol of UNIT_SYMBOLS) expect(u(symbol).symbol).toBe(symbol);
  });

  it('reads the unit of a quantity that was written out', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.nat(6),
        fc.constantFrom(...UNIT_SYMBOLS),
        (digits, places, symbol) => {
          const value = decimal(digits).div(decimal(10).pow(places));
          const [number, ...unit] = formatQuantity(value, symbol, 20).split(' ');
          expect(decimal(number!).eq(value)).toBe(true);
          expect(findUnit(unit.join(' '))!.symbol).toBe(symbol);
        },
      ),
    );
  });

  it('never fails on any text', () => {
    const pieces = fc.constantFrom(...ATOMS, '/', '%', ' ', '²', 'µ', '\u0000', '😀');
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: pieces })), (text) => {
        const unit = findUnit(text);
        if (unit) expect(unit.factor.isFinite() && unit.factor.gt(0)).toBe(true);
        for (const near of nearUnits(text)) expect(findUnit(near)).not.toBeNull();
      }),
    );
  });
});

describe('conversions', () => {
  // Against @lhncbc/ucum-lhc, an implementation of the Unified Code for Units of Measure. It names microgram, year, month and
  // drop otherwise; it has no body weight, so kg below is mass there, in the same proportion.
  const UCUM: Readonly<Record<string, string>> = {
    mcg: 'ug',
    micromol: 'umol',
    y: 'a_j',
    mo: 'mo_j',
    Eq: 'eq',
    mEq: 'meq',
    Osm: 'osm',
    mOsm: 'mosm',
    drops: '[drp]',
  };
  const ucum = UcumLhcUtils.getInstance();
  const coded = (symbol: string) =>
    symbol
      .split('/')
      .map((atom) => UCUM[atom] ?? atom)
      .join('/');

  const atoms = ATOMS.filter((symbol) => symbol !== 'units');
  const ratios = [
    'mg/dL',
    'g/L',
    'kg/L',
    'mmol/L',
    'mol/L',
    'mmol/mL',
    'mEq/L',
    'mEq/mL',
    'mOsm/L',
    'mL/h',
    'L/d',
    'mL/min',
    'mL/kg/h',
    'L/kg/d',
    'mcg/kg/min',
    'mg/kg/h',
    'g/kg/d',
    'kcal/L',
    'kJ/mL',
    'mg/m2',
    'g/m2',
    'mmol/h',
    'mol/d',
  ];
  const pairs = [...atoms, ...ratios].flatMap((from) =>
    [...atoms, ...ratios]
      .filter((to) => to !== from && sameDimension(u(from).dimension, u(to).dimension))
      .map((to) => [from, to] as const),
  );

  it.each(pairs)('%s to %s as the UCUM package does', (from, to) => {
    const { status, toVal } = ucum.convertUnitTo(coded(from), 1, coded(to));
    expect(status).toBe('succeeded');
    const ours = inUnit({ value: decimal(1), unit: u(from) }, u(to))!.toNumber();
    expect(Math.abs(ours / toVal! - 1)).toBeLessThan(1e-12);
  });

  it('is exact there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e9 }), fc.constantFrom(...pairs), (value, [from, to]) => {
        const there = inUnit({ value: decimal(value), unit: u(from) }, u(to))!;
        expect(
          inUnit({ value: there, unit: u(to) }, u(from))!
            .toSignificantDigits(30)
            .toString(),
        ).toBe(String(value));
      }),
    );
  });

  it('is exact for minutes', () => {
    expect(inUnit({ value: decimal(90), unit: u('min') }, u('h'))!.toString()).toBe('1.5');
  });

  it('refuses another dimension', () => {
    expect(inUnit({ value: decimal(1), unit: u('mmol') }, u('mEq'))).toBeNull();
    expect(inUnit({ value: decimal(1), unit: u('mmol') }, u('mOsm'))).toBeNull();
    expect(inUnit({ value: decimal(1), unit: u('mL') }, u('mL/kg'))).toBeNull();
    expect(inUnit({ value: decimal(1), unit: u('units') }, u('mg'))).toBeNull();
  });
});

describe('dimensions', () => {
  it('has words for them', () => {
    expect(dimensionWords(u('mmol/L').dimension)).toBe('amount per volume');
    expect(dimensionWords(u('mL/kg/h').dimension)).toBe('volume per body weight per time');
    expect(dimensionWords(u('%').dimension)).toBe('mass per volume');
    expect(dimensionWords(u('mOsm/kg').dimension)).toBe('osmoles per mass of water');
  });

  it('does not mind the order below', () => {
    expect(sameDimension(u('mL/kg/h').dimension, u('mL/h/kg').dimension)).toBe(true);
    expect(sameDimension(u('mL/h/kg').dimension, u('mL/kg/h').dimension)).toBe(true);
    expect(sameDimension(u('mL/kg').dimension, u('mL/h').dimension)).toBe(false);
  });

  it('says what a quantity is by its unit', () => {
    expect(['mL', 'L'].every((text) => isVolume(u(text)))).toBe(true);
    expect(['%', '% w/w', 'mmol/mL', 'units/mL', 'mL/L'].every((text) => isStrength(u(text)))).toBe(true);
    expect(['mL/h', 'mg/kg/min', 'mmol/L/h'].every((text) => isRate(u(text)) && !isStrength(u(text)))).toBe(true);
    expect(isVolume(u('mL/h')) || isMass(u('mg/L')) || isTime(u('mL/h')) || isStrength(u('mg'))).toBe(false);
    expect(isMass(u('mg')) && isTime(u('min'))).toBe(true);
  });
});
