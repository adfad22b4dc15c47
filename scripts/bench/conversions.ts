/**
 * A mixture with all its results, beside a general-purpose library of units that is given the same conversions as text: in
 * its usual floating point, and in decimals of as many digits as ours.
 */
import { all, create } from 'mathjs';
import { DEFAULT_REFERENCE, results } from '../../src/engine/index.ts';
import { readNote } from '../../src/markdown/index.ts';
import { workNote } from '../../src/note/index.ts';
import { type Finding, medians, plain, ratio } from './measure.ts';

const NOTE = `\`\`\`infusion
mixture bag
  1 L water
  9 g sodium chloride
  300 mg potassium chloride
  330 mg calcium chloride dihydrate
  50 g dextrose monohydrate
\`\`\`
`;

/** Amounts, strengths, equivalents, sums, free water and energy: what units alone can say of the same bag. */
const CONVERSIONS = [
  'v = 1 L + 9 g * 0.3 mL/g + 300 mg * 0.37 mL/g + 330 mg * 0.35 mL/g + 50 g * 0.65 mL/g',
  'salt = 9 g / (58.443 g/mol)',
  'potash = 300 mg / (74.551 g/mol)',
  'lime = 330 mg / (147.01 g/mol)',
  'sugar = 50 g / (198.17 g/mol)',
  'v to mL',
  'salt / v to mmol/L',
  'potash / v to mmol/L',
  'lime / v to mmol/L',
  '(salt + potash + 2 lime) / v to mmol/L',
  'sugar / v to mmol/L',
  '(2 salt + 2 potash + 3 lime + sugar) / v to mmol/L',
  '(2 salt + 2 potash + 3 lime) / v to mmol/L',
  '1 - (salt + potash) / v / (154 mmol/L)',
  '(salt + potash + 2 lime) / v to mmol/L',
  'sugar * (180.16 g/mol) * (3.4 J/g) / v to J/L',
  '9 g / v to g/L',
  '300 mg / v to g/L',
  '330 mg / v to g/L',
  '50 g / v to g/L',
];

const floats = create(all!);
const decimals = create(all!, { number: 'BigNumber', precision: 40 });

export async function conversions(): Promise<readonly Finding[]> {
  const times = await medians(
    {
      meniscus: () => {
        const [mixture] = workNote(readNote(NOTE)).mixtures;
        if (!mixture?.contents || results(mixture.contents, DEFAULT_REFERENCE).length < 12)
          throw new Error('no results');
      },
      floats: () => {
        floats.evaluate(CONVERSIONS);
      },
      decimals: () => {
        decimals.evaluate(CONVERSIONS);
      },
    },
    { runs: 400, warmUp: 200 },
  );
  const aSecond = (time: number) => `${Math.round(1000 / time).toLocaleString('en')} a second`;
  return [
    plain('(e) a mixture of five lines with all its results, read, worked out and measured', aSecond(times.meniscus)),
    plain('(e) `mathjs` with its conversions, in floating point', aSecond(times.floats)),
    plain('(e) `mathjs` with its conversions, in decimals of 40 digits', aSecond(times.decimals)),
    ratio('(e) as many a second as `mathjs` in floating point', times.floats / times.meniscus, { atLeast: 10 }),
    ratio('(e) as many a second as `mathjs` in decimals', times.decimals / times.meniscus, { atLeast: 10 }),
  ];
}
