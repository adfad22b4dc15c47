/**
 * Worked examples of textbooks and papers, written as notes. Beside each stands where it is from; ‘worked out here’ is only
 * the formula’s own output.
 */
import { describe, expect, it } from 'vitest';
import { claimed, faultsIn } from './bedside.ts';

/** Each claim holds within the tolerance written in it. */
function holds(block: string): void {
  expect(faultsIn(block)).toEqual([]);
  const claims = claimed(block);
  expect(claims.length).toBeGreaterThan(0);
  expect(
    claims.map((claim) => claim.holds),
    claims.map(({ found }) => found).join(', '),
  ).not.toContain(false);
}

const each = (examples: readonly (readonly [name: string, block: string])[]) =>
  it.each(examples)('%s', (_, block) => holds(block));

const woman = 'patient woman\n  weight 46 kg\n  body water 23 L\n  serum sodium 112 mmol/L\n';
const man = (sodium: number, litres: number) =>
  `patient man\n  body water ${litres} L\n  serum sodium ${sodium} mmol/L\n`;
const adult = (weight: number) => `patient adult\n  weight ${weight} kg\n  age 40 y\n  sex male\n`;
const by = 'over 24 h by central vein to';

describe('predicted sodium', () => {
  each([
    // New England Journal of Medicine 2000, Hyponatremia: +16.7 and +10.9 (case details from memory).
    [
      '46 kg woman, body water 23 L, sodium 112, 1 L of 3 %: +16.7',
      `${woman}give 1 L sodium chloride 3% ${by} woman\n  claim predicted sodium 128.7 mmol/L within 0.05 mmol/L`,
    ],
    [
      'body water 36 L, sodium 108, 1 L of 3 %: +10.9',
      `${man(108, 36)}give 1 L sodium chloride 3% ${by} man\n  claim predicted sodium 118.9 mmol/L within 0.1 mmol/L`,
    ],
    // New England Journal of Medicine 2000, Hypernatremia: −4.8 (case details from memory).
    [
      'body water 34 L, sodium 168, 1 L of dextrose 5 %: −4.8',
      `${man(168, 34)}give 1 L dextrose 5% ${by} man\n  claim predicted sodium 163.2 mmol/L within 0.05 mmol/L`,
    ],
    // Worked out here: the change of 1 L scaled to 0.15 L would be +1.63.
    [
      'body water 36 L, sodium 110, 150 mL of 3 %: +1.67',
      `${man(110, 36)}give 150 mL sodium chloride 3% ${by} man\n  claim predicted sodium 111.67 mmol/L within 0.01 mmol/L`,
    ],
    // Nephrology Dialysis Transplantation 2005 gives the constants; worked out here.
    [
      'by regression: 128.4',
      `${woman}give 1 L sodium chloride 3% ${by} woman\n  claim predicted sodium by regression 128.4 mmol/L within 0.1 mmol/L`,
    ],
    [
      'by regression: −5.5',
      `${man(168, 34)}give 1 L dextrose 5% ${by} man\n  claim predicted sodium by regression 162.5 mmol/L within 0.1 mmol/L`,
    ],
    // Worked out here: 1 L of 154 mmol/L in, 1 L of urine with 200 mmol/L out.
    [
      'saline against a concentrated urine lowers sodium: −1.5',
      `${man(115, 30)}  urine 1 L/d sodium 150 mmol/L potassium 50 mmol/L
give 1 L sodium chloride 0.9% ${by} man
  claim predicted sodium 113.5 mmol/L within 0.05 mmol/L`,
    ],
    // Hospital Physician 2007, self-assessment: 210 mmol, ‘about 0.41 L’, by the deficit rule, which leaves out the litres given.
    [
      'body water 35 L, sodium 110: 410 mL of 3 % bring 210 mmol',
      `${man(110, 35)}give 410 mL sodium chloride 3% over 3 h by central vein to man as brine
  claim sodium 210 mmol within 1 mmol
  claim rate 137 mL/h
  claim predicted sodium 114.7 mmol/L within 0.1 mmol/L`,
    ],
  ]);
});

describe('electrolyte-free water', () => {
  const of = (fluid: string, claim: string) => `give 1 L ${fluid} over 8 h by vein\n  claim free water ${claim}`;
  each([
    // Archives of Disease in Childhood, formula 1 − (Na + K)/154.
    ['dextrose 5 %', of('dextrose 5%', '1000 mL')],
    ['0.45 %', of('sodium chloride 0.45%', '500 mL within 1 mL')],
    ['0.225 %', of('sodium chloride 0.225%', '750 mL within 1 mL')],
    ['0.9 %', of('sodium chloride 0.9%', '0 mL')],
    ['3 %', of('sodium chloride 3%', '-2331 mL within 3 mL')],
    ['lactated Ringer’s (worked out here: 130 + 4)', of("lactated Ringer's", '130 mL within 3 mL')],
    [
      '0.9 % for a sodium of 120 (worked out here)',
      `${man(120, 30)}give 1 L sodium chloride 0.9% ${by} man\n  claim free water for the patient -283 mL within 1 mL`,
    ],
    [
      '0.9 % for a sodium of 160 (worked out here)',
      `${man(160, 30)}give 1 L sodium chloride 0.9% ${by} man\n  claim free water for the patient 38 mL within 1 mL`,
    ],
    [
      'deficit at 34 L and 168: 6.8 L (worked out here)',
      `${man(168, 34)}  claim free water deficit 6.8 L within 0.05 L`,
    ],
  ]);
});

describe('body water', () => {
  each([
    // American Journal of Clinical Nutrition 1980. With 0.09156 per year, a coefficient often misprinted, it would be 41.11.
    [
      'man of 40 years, 175 cm, 70 kg: 40.97 L',
      'patient man\n  age 40 y\n  height 175 cm\n  weight 70 kg\n  sex male\n  claim body water 40.97 L within 0.02 L',
    ],
    [
      'woman of 165 cm, 60 kg: 30.34 L, whatever her age',
      'patient woman\n  age 40 y\n  height 1.65 m\n  weight 60 kg\n  sex female\n  claim body water 30.34 L within 0.02 L',
    ],
  ]);
});

describe('serum osmolality', () => {
  each([
    // Worked out here: 2 × sodium + glucose/18 + urea nitrogen/2.8.
    [
      'sodium 140, glucose 90 mg/dL, urea nitrogen 14 mg/dL: 290 and 285',
      `patient adult
  serum sodium 140 mmol/L
  serum glucose 90 mg/dL
  serum urea nitrogen 14 mg/dL
  claim serum osmolality 290 mOsm/kg within 0.5 mOsm/kg
  claim effective serum osmolality 285 mOsm/kg within 0.5 mOsm/kg`,
    ],
    [
      'sodium 145, glucose 900 mg/dL: effective 340 (within 0.1, the molar mass being 180.16 and not 180)',
      `patient adult
  serum sodium 145 mmol/L
  serum glucose 900 mg/dL
  claim effective serum osmolality 340 mOsm/kg within 0.1 mOsm/kg`,
    ],
  ]);
});

describe('osmolarity of what is given', () => {
  const of = (fluid: string, osmolarity: number, within: number) =>
    `give 1 L ${fluid} over 8 h by central vein\n  claim osmolarity ${osmolarity} mOsm/L within ${within} mOsm/L`;
  each([
    ['dextrose 5 %, the monohydrate (label)', of('dextrose 5%', 252, 2)],
    ['glucose 5 %, anhydrous (label)', of('glucose 5%', 278, 2)],
    ['dextrose 10 % (label)', of('dextrose 10%', 505, 3)],
    ['dextrose 5 % in 0.9 % (label)', of('dextrose 5% in sodium chloride 0.9%', 560, 2)],
    ['3 % (texts: 1026 to 1027)', of('sodium chloride 3%', 1027, 2)],
    ['dextrose 20 % (worked out here)', of('dextrose 20%', 1009, 4)],
    ['water', of('water', 0, 0)],
    ['0.225 % (worked out here)', of('sodium chloride 0.225%', 77, 1)],
    ['0.5 %, where lysis of red cells begins in vitro (textbook)', of('sodium chloride 0.5%', 171, 1)],
    ['0.3 %, where it is complete (textbook)', of('sodium chloride 0.3%', 103, 1)],
  ]);
});

describe('potassium', () => {
  each([
    [
      '40 mmol/L at 125 mL/h is 5 mmol/h (worked out here)',
      'give potassium chloride 40 mmol/L in sodium chloride 0.9% at 125 mL/h by vein\n  claim potassium rate 5 mmol/h',
    ],
    [
      'at 300 mL/h 12 mmol/h (worked out here)',
      'give potassium chloride 40 mmol/L in sodium chloride 0.9% at 300 mL/h by vein\n  claim potassium rate 12 mmol/h',
    ],
    [
      '20 mmol in 100 mL are 200 mmol/L (worked out here)',
      'mixture bag\n  20 mmol potassium chloride\n  water to 100 mL\ngive bag over 2 h by central vein\n  claim potassium 200 mmol/L',
    ],
    // NHS Highland formulary: 0.3 % and 0.15 % are labelled 40 and 20 mmol/L.
    ['0.3 %', 'give 1 L potassium chloride 0.3% over 8 h by vein\n  claim potassium 40.2 mmol within 0.3 mmol'],
    ['0.15 %', 'give 1 L potassium chloride 0.15% over 8 h by vein\n  claim potassium 20.1 mmol within 0.3 mmol'],
    ['15 %: 2 mmol/mL', 'give 10 mL potassium chloride 15% over 8 h by central vein\n  claim potassium 2.01 mmol/mL'],
  ]);
});

describe('maintenance and glucose', () => {
  const child = (weight: number) => `patient child\n  weight ${weight} kg\n`;
  each([
    // Pediatrics 1957; a hospital’s teaching page for 30 kg.
    ['8 kg', `${child(8)}  claim maintenance volume 800 mL\n  claim maintenance rate 32 mL/h`],
    ['15 kg', `${child(15)}  claim maintenance volume 1250 mL\n  claim maintenance rate 50 mL/h`],
    ['30 kg', `${child(30)}  claim maintenance volume 1700 mL\n  claim maintenance rate 70 mL/h`],
    ['32 kg', `${child(32)}  claim maintenance volume 1740 mL`],
    ['70 kg', `${child(70)}  claim maintenance volume 2500 mL\n  claim maintenance rate 110 mL/h`],
    [
      'a bolus of 10 mL/kg at 18 kg is 180 mL (worked out here)',
      `${child(18)}give 10 mL/kg sodium chloride 0.9% over 10 min by vein to child\n  claim volume 180 mL`,
    ],
    // Worked out here, by grams as labelled: rate × percent / (6 × weight).
    [
      'dextrose 10 % at 12 mL/h in 3 kg: 6.67 mg/kg/min',
      `${child(3)}give dextrose 10% at 12 mL/h by central vein to child\n  claim glucose rate 6.67 mg/kg/min`,
    ],
    [
      'dextrose 10 % at 125 mL/h in 70 kg: 2.98 mg/kg/min',
      `${adult(70)}give dextrose 10% at 125 mL/h by vein to adult\n  claim dextrose rate 2.98 mg/kg/min`,
    ],
    [
      'dextrose 5 % at 100 mL/h in 20 kg: 4.17 mg/kg/min',
      `${child(20)}give dextrose 5% at 100 mL/h by vein to child\n  claim glucose rate 4.17 mg/kg/min`,
    ],
    [
      'dextrose 5 % at 75 mL/h for 24 h: 1800 mL, 90 g, 306 kcal (study page)',
      'give dextrose 5% at 75 mL/h for 24 h by vein\n  claim volume 1800 mL\n  claim dextrose 90 g\n  claim energy 306 kcal within 1 kcal',
    ],
    [
      '2 L of dextrose 5 %: 340 kcal (3.4 kcal/g, label)',
      'give 2 L dextrose 5% over 24 h by vein\n  claim energy 340 kcal within 1 kcal',
    ],
  ]);
});

describe('where a litre goes', () => {
  const of = (fluid: string, cells: number, plasma: number) =>
    `give 1 L ${fluid} over 8 h by vein
  claim cells ${cells} mL within 1 mL
  claim plasma ${plasma} mL within 1 mL
  claim interstitium ${1000 - cells - plasma} mL within 1 mL`;
  each([
    // Textbooks of physiology: 75 to 85 mL of a litre of dextrose 5 %, 250 mL of saline.
    ['dextrose 5 %', of('dextrose 5%', 667, 83)],
    ['0.45 %', of('sodium chloride 0.45%', 333, 167)],
    ['0.9 %', of('sodium chloride 0.9%', 0, 250)],
    ['0.225 % (worked out here)', of('sodium chloride 0.225%', 500, 125)],
  ]);
});

describe('bicarbonate and base', () => {
  const drip = (lines: string, claims: readonly string[]) =>
    `mixture drip\n${lines}\ngive drip at 150 mL/h by vein\n${claims.map((claim) => `  claim ${claim}`).join('\n')}`;
  each([
    // A toxicologists’ position statement for the recipe; the rest worked out here.
    [
      '150 mL of 8.4 % added to 1 L of dextrose 5 %',
      drip('  1 L dextrose 5%\n  150 mL sodium bicarbonate 8.4%', [
        'volume 1150 mL',
        'bicarbonate 130.4 mmol/L within 0.2 mmol/L',
        'dextrose 43.5 g/L',
        'osmolarity 480 mOsm/L within 2 mOsm/L',
        'effective osmolarity 261 mOsm/L within 0.5 mOsm/L',
        'duration 7.67 h',
      ]),
    ],
    [
      '150 mL removed first',
      drip('  1 L dextrose 5%\n  withdraw 150 mL\n  150 mL sodium bicarbonate 8.4%', [
        'bicarbonate 150 mmol within 0.2 mmol',
        'dextrose 42.5 g/L',
        'osmolarity 514 mOsm/L within 2 mOsm/L',
      ]),
    ],
    // Concentration of a trial’s solution; the volumes from memory.
    [
      '154 mL of 1 mmol/mL and 846 mL of dextrose 5 %',
      drip('  846 mL dextrose 5%\n  154 mL sodium bicarbonate 1 mmol/mL', [
        'bicarbonate 154 mmol/L',
        'dextrose 42.3 g/L',
        'dextrose 4.23 %',
      ]),
    ],
    // A hospital’s recipe.
    [
      '160 mL of 8.4 % made up to 1 L: 160 mmol/L, 1.344 %',
      drip('  160 mL sodium bicarbonate 8.4%\n  water to 1 L', [
        'bicarbonate 160 mmol/L within 0.5 mmol/L',
        'sodium bicarbonate 1.344 %',
        'sodium bicarbonate 13.44 g/L',
      ]),
    ],
    [
      '150 mL of 8.4 % added to 1 L of 0.9 % (worked out here)',
      drip('  1 L sodium chloride 0.9%\n  150 mL sodium bicarbonate 8.4%', [
        'sodium 264.3 mmol/L within 0.2 mmol/L',
        'bicarbonate 130.4 mmol/L within 0.2 mmol/L',
        'osmolarity 529 mOsm/L within 0.5 mOsm/L',
      ]),
    ],
    // Worked out here: half of 70 kg times 14 mmol/L.
    [
      'deficit of 70 kg at 10 mmol/L',
      `${adult(70)}  serum bicarbonate 10 mmol/L\n  claim bicarbonate deficit 490 mmol`,
    ],
    // A formulary for newborn infants: base deficit × weight × 0.3.
    [
      'newborn infant of 3 kg with a base deficit of 8',
      'patient neo\n  weight 3 kg\n  age 1 d\n  base deficit 8 mmol/L\n  claim bicarbonate deficit 7.2 mmol',
    ],
    [
      'strong ion difference of 0.9 %, lactated Ringer’s, and 0.45 % with 75 mmol/L of bicarbonate: 0, 28, 75',
      `give 1 L sodium chloride 0.9% over 8 h by vein
  claim strong ion difference 0 mEq/L
give 1 L lactated Ringer's over 8 h by vein
  claim strong ion difference 28 mEq/L within 0.5 mEq/L
give 1 L sodium bicarbonate 75 mmol/L in sodium chloride 0.45% over 8 h by vein
  claim strong ion difference 75 mEq/L`,
    ],
    // Worked out here: 4 mmol/mL.
    [
      '77 mmol from 23.4 % are 19.25 mL',
      'give 77 mmol sodium chloride 23.4% over 1 h by central vein\n  claim volume 19.25 mL within 0.05 mL',
    ],
  ]);

  it('20 mEq in 500 mL are not 20 mEq/L', () => {
    const block =
      'mixture bag\n  500 mL sodium chloride 0.9%\n  20 mEq potassium chloride\ngive bag over 4 h by vein\n  claim potassium 20 mEq/L';
    expect(faultsIn(block)).toEqual(['claim-mismatch: 20 mEq/L']);
  });
});
