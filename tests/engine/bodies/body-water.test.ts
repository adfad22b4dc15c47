import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ageGroup, type BodyWater, bodyWater, decimal, type PatientFacts } from '../../../src/engine/index.ts';
import { near, patient } from './helpers.ts';

type Known = Partial<Record<'weight' | 'height' | 'age', string>> & Pick<Partial<PatientFacts>, 'sex'>;

function water({ weight, height, age, sex = null }: Known): BodyWater {
  const read = (text: string | undefined) => (text === undefined ? null : decimal(text));
  return bodyWater(patient({ weight: read(weight), height: read(height), age: read(age), sex }));
}

function litres(known: Known) {
  const found = water(known);
  if (!found.ok) throw new Error(`missing: ${found.missing}`);
  return found.litres;
}

describe('the group of an age', () => {
  it.each([
    ['0', 'neonate'],
    ['0.0766', 'neonate'],
    ['0.0767', 'infant'],
    ['0.999', 'infant'],
    ['1', 'child'],
    ['17.99', 'child'],
    ['18', 'adult'],
    ['120', 'adult'],
  ])('%s years: %s', (age, group) => expect(ageGroup(decimal(age))).toBe(group));

  it('begins on the 28th day, however the days were divided by the year', () => {
    expect(ageGroup(decimal(28).div('365.25'))).toBe('infant');
    expect(ageGroup(decimal(27).div('365.25'))).toBe('neonate');
    expect(ageGroup(null)).toBeNull();
    expect(ageGroup(decimal(-1))).toBeNull();
  });
});

describe('body water of adults', () => {
  it('comes out by the formula of 1980 for a man of 40 years, 175 cm and 70 kg', () => {
    // 2.447 - 0.09516 × 40 + 0.1074 × 175 + 0.3362 × 70 (Am J Clin Nutr 1980;33:27, abstract).
    const found = litres({ weight: '70', height: '175', age: '40', sex: 'male' });
    near(found, '40.97', '0.02');
    // The transposed coefficient 0.09156 gives 41.11.
    expect(found.minus('41.11').abs().gt('0.02')).toBe(true);
  });

  it('does not depend on the age of a woman of 165 cm and 60 kg', () => {
    // -2.097 + 0.1069 × 165 + 0.2466 × 60, the same abstract.
    for (const age of ['18', '40', '90'])
      near(litres({ weight: '60', height: '165', age, sex: 'female' }), '30.34', '0.02');
  });

  it('tells its standard deviation: 3.76 L of men, 3.60 L of women', () => {
    const man = water({ weight: '70', height: '175', age: '40', sex: 'male' });
    const woman = water({ weight: '60', height: '165', age: '40', sex: 'female' });
    expect(man).toMatchObject({ by: 'watson', fraction: null, within: decimal('3.76') });
    expect(woman).toMatchObject({ by: 'watson', fraction: null, within: decimal('3.60') });
  });

  it.each([
    // Shares by sex and age as NEJM 2000;342:1581 has them, read second-hand; its man of 60 kg has 36 L.
    ['male', '64', '0.6'],
    ['male', '65', '0.5'],
    ['female', '64', '0.5'],
    ['female', '65', '0.45'],
  ] as const)('is a share of the weight where the height is not known: %s, %s years, %s', (sex, age, fraction) => {
    const found = water({ weight: '60', age, sex });
    expect(found).toMatchObject({ ok: true, by: 'fraction', within: null });
    expect(found.ok && found.fraction?.toString()).toBe(fraction);
    expect(found.ok && found.litres.eq(decimal(fraction).times(60))).toBe(true);
  });

  it('is a share of the weight where the formula gives more than the body weighs', () => {
    expect(water({ weight: '20', height: '250', age: '40', sex: 'male' })).toMatchObject({ by: 'fraction' });
    expect(water({ weight: '2', height: '2', age: '40', sex: 'female' })).toMatchObject({ by: 'fraction' });
  });
});

describe('body water of children', () => {
  it.each([
    // J Am Soc Nephrol 2002;13:1884, abstract; the powers worked out in floating point.
    [{ weight: '3.5', age: '0.02' }, '2.509'],
    [{ weight: '5', age: '0.2' }, '3.374'],
    [{ weight: '20', height: '110', age: '5', sex: 'male' }, '12.586'],
    [{ weight: '20', height: '110', age: '5', sex: 'female' }, '11.957'],
    [{ weight: '20', height: '110', age: '13', sex: 'male' }, '12.586'],
    [{ weight: '55', height: '165', age: '16', sex: 'male' }, '40.793'],
    [{ weight: '55', height: '165', age: '16', sex: 'female' }, '34.266'],
  ] as const)('%o: %s L', (known, printed) => {
    near(litres(known), printed, '0.005');
    expect(water(known)).toMatchObject({ by: 'morgenstern', fraction: null, within: null });
  });

  it('is 0.6 of the weight where height or sex is not known', () => {
    for (const known of [{ height: '110' }, { sex: 'male' }, {}] as const) {
      expect(water({ ...known, weight: '20', age: '5' })).toMatchObject({ by: 'fraction', litres: decimal(12) });
    }
  });

  it('is 0.8 of a newborn too light for the formula', () => {
    expect(water({ weight: '0.45', age: '0' })).toMatchObject({ by: 'neonate', litres: decimal('0.36') });
  });
});

describe('what is known of body water', () => {
  it('is what the author wrote, whatever else there is', () => {
    const facts = patient({ bodyWater: decimal(33), weight: decimal(70), age: decimal(40), sex: 'male' });
    expect(bodyWater(facts)).toMatchObject({ ok: true, by: 'written', litres: decimal(33) });
  });

  it.each([
    [{}, ['weight', 'age']],
    [{ weight: '60' }, ['age']],
    [{ weight: '60', height: '165', sex: 'female' }, ['age']],
    [{ weight: '60', height: '165', age: '40' }, ['sex']],
    [{ height: '165', age: '40' }, ['weight', 'sex']],
    [{ age: '5' }, ['weight']],
    [{ weight: '0', age: '5' }, ['weight']],
  ] as const)('is never guessed: of %o is missing %o', (known, missing) =>
    expect(water(known as Known)).toEqual({ ok: false, missing }),
  );

  it('is never nothing, never more than the weight, and never fails', () => {
    const number = fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => decimal(value)));
    const sex = fc.constantFrom('female', 'male', null);
    fc.assert(
      fc.property(number, number, number, sex, (weight, height, age, ofSex) => {
        const found = bodyWater(patient({ weight, height, age, sex: ofSex }));
        if (found.ok) expect(found.litres.gt(0) && found.litres.lt(weight!)).toBe(true);
        else expect(found.missing.length).toBeGreaterThan(0);
      }),
    );
  });
});
