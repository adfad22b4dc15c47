import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bicarbonateDeficit,
  bicarbonateSpace,
  calculatedOsmolality,
  correctedSodium,
  decimal,
  deficitByBase,
  effectiveOsmolality,
  NEUTRAL_STRONG_ION_DIFFERENCE,
} from '../../../src/engine/index.ts';
import { litreOf, value } from '../helpers.ts';
import { near, stock } from './helpers.ts';

describe('bicarbonate', () => {
  it('70 kg lack 490 mmol from 10 to 24, 175 from 10 to 15', () => {
    // Half of the weight as the space (NEJM 1973;289:121, abstract, states the assumption).
    const given = { weight: decimal(70), bicarbonate: decimal(10) };
    near(bicarbonateDeficit({ ...given, target: decimal(24) }), '490', '1');
    near(bicarbonateDeficit({ ...given, target: decimal(15) }), '175', '1');
    near(bicarbonateDeficit({ ...given, target: decimal(24), space: decimal('0.66') }), '646.8', '0');
  });

  it('a newborn of 3 kg with a base deficit of 8 lacks 7.2 mmol', () => {
    // 0.3 × kg × base deficit, a neonatal drug manual.
    near(deficitByBase(decimal(3), decimal(8)), '7.2', '0.1');
  });

  it('spreads wider the less there is', () => {
    // 0.4 + 2.6 ÷ bicarbonate, Kidney International 1989, from memory.
    near(bicarbonateSpace(decimal(10))!, '0.66', '0.01');
    near(bicarbonateSpace(decimal(5))!, '0.92', '0.01');
    expect(bicarbonateSpace(decimal(0))).toBeNull();
    expect(bicarbonateSpace(decimal(-4))).toBeNull();
  });

  it('is neither gained nor lost at a strong ion difference of 24 mEq/L', () => {
    // Critical Care 2005;9:204; the fluids from J Intensive Care Med 2010;25:271.
    const beyondNeutral = (mEq: string) => decimal(mEq).minus(NEUTRAL_STRONG_ION_DIFFERENCE).toNumber();
    near(NEUTRAL_STRONG_ION_DIFFERENCE, '24', '0');
    const halfSalineWithBase = litreOf(['0.45 %', 'sodium chloride'], ['75 mmol/L', 'sodium bicarbonate']);
    for (const [fluid, mEq] of [
      [stock('sodium chloride 0.9 %'), '0'],
      [stock("lactated Ringer's"), '28'],
      [halfSalineWithBase, '75'],
    ] as const) {
      near(value(fluid, 'strong ion difference', 'mEq/L'), mEq, '0.5');
    }
    expect(['0', '28', '75'].map((mEq) => Math.sign(beyondNeutral(mEq)))).toEqual([-1, 1, 1]);
  });
});

describe('osmolality of serum', () => {
  // mg/dL ÷ 18 of glucose and ÷ 2.8 of urea nitrogen are mmol/L.
  const glucose = (mgPerDl: number) => decimal(mgPerDl).div(18);

  it('sodium 140, glucose 90 mg/dL and urea nitrogen 14 mg/dL are 290 and 285 mOsm/kg', () => {
    const values = { sodium: decimal(140), glucose: glucose(90), urea: decimal(14).div('2.8') };
    near(calculatedOsmolality(values), '290', '0.5');
    near(effectiveOsmolality(values), '285', '0.5');
  });

  it('sodium 145 and glucose 900 mg/dL are effectively 340 mOsm/kg', () => {
    near(effectiveOsmolality({ sodium: decimal(145), glucose: glucose(900) }), '340', '0.5');
  });

  it('corrects sodium by 1.6 mmol/L for each 5.6 mmol/L of glucose above 5.6', () => {
    // A review in Frontiers in Medicine, 2020.
    near(correctedSodium(decimal(130), decimal('28')), '136.4', '0');
    near(correctedSodium(decimal(130), decimal('5.6')), '130', '0');
    near(correctedSodium(decimal(130), decimal('3')), '130', '0');
  });

  it('never fails', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => decimal(number));
    fc.assert(
      fc.property(any, any, any, (sodium, sugar, urea) => {
        const found = [
          calculatedOsmolality({ sodium, glucose: sugar, urea }),
          correctedSodium(sodium, sugar),
          deficitByBase(sodium, sugar),
          bicarbonateDeficit({ weight: sodium, bicarbonate: sugar, target: urea }),
          bicarbonateSpace(sodium) ?? decimal(0),
        ];
        expect(found.every((result) => result.isFinite())).toBe(true);
      }),
    );
  });
});
