/** One figure of each kind, and what is drawn of one. */
import { figureSvg } from '../../src/render/index.ts';
import type {
  Comparison,
  Figure,
  IonColumns,
  Litres,
  SodiumCourse,
  TwoLabels,
  Vessels,
  WhereItGoes,
} from '../../src/text/figures.ts';
import { type Element, everyElement, wellFormed } from './well-formed.ts';

export const named = { name: 'What it is', sentence: 'What it shows.' };

/** Classic drawing of plasma beside 0.9 % saline with 20 mmol of potassium chloride in 1010 mL: 152.48 + 19.8 = 172.28. */
export const ions: IonColumns = {
  ...named,
  kind: 'ion-columns',
  liquid: {
    name: 'Gastric replacement',
    cations: [
      { name: 'sodium', mEq: 152.48 },
      { name: 'potassium', mEq: 19.8 },
    ],
    anions: [{ name: 'chloride', mEq: 172.28 }],
  },
  plasma: {
    name: 'plasma',
    cations: [
      { name: 'sodium', mEq: 142 },
      { name: 'potassium', mEq: 5 },
      { name: 'calcium', mEq: 5 },
      { name: 'magnesium', mEq: 3 },
    ],
    anions: [
      { name: 'chloride', mEq: 103 },
      { name: 'bicarbonate', mEq: 27 },
      { name: 'proteins', mEq: 16 },
      { name: 'organic acids', mEq: 6 },
      { name: 'phosphate', mEq: 2 },
      { name: 'sulfate', mEq: 1 },
    ],
  },
};

export const vessels: Vessels = {
  ...named,
  kind: 'vessels',
  steps: [
    { volume: 1000, osmolarity: 154, added: { volume: 1000, name: 'sodium chloride 0.45%' }, withdrawn: 0 },
    { volume: 900, osmolarity: 154, added: null, withdrawn: 100 },
    { volume: 450, osmolarity: 0, added: null, withdrawn: 450 },
  ],
};

/** 1 L of dextrose 5 %: 667, 250 and 83 mL (the simple rule of textbooks). */
export const basins: WhereItGoes = {
  ...named,
  kind: 'where-it-goes',
  water: { cells: 666.7, interstitium: 250, plasma: 83.3 },
  arrives: { cells: 666.7, interstitium: 250, plasma: 83.3 },
  before: null,
};

export const course: SodiumCourse = {
  ...named,
  kind: 'sodium-course',
  points: [
    { hour: 0, sodium: 112, regression: 112 },
    { hour: 24, sodium: 116.7, regression: 117.4 },
    { hour: 48, sodium: 120, regression: 121 },
  ],
  error: 6.37,
  limit: [
    { until: 24, sodium: 122 },
    { until: 48, sodium: 130 },
  ],
  orders: [
    {
      name: 'pushes',
      runs: [
        [0, 12],
        [24, 36],
      ],
    },
    { name: 'drip', runs: [[0, 48]] },
  ],
};

export const compared: Comparison = {
  ...named,
  kind: 'comparison',
  rows: [
    { name: 'dextrose 5%', freeWater: 1000, bag: 252, body: 0 },
    { name: 'half-saline', freeWater: 500, bag: 154, body: 154 },
    { name: 'brine', freeWater: -2331, bag: 1026, body: 1026 },
  ],
  isotonic: [250, 375],
};

/** By the simple rule: 667, 250 and 83 mL of dextrose 5 %, 0, 750 and 250 mL of 0.9 % saline; 3 % takes water out of cells. */
export const litres: Litres = {
  ...named,
  kind: 'litres',
  rows: [
    { name: 'dextrose 5%', goes: { cells: 666.7, interstitium: 250, plasma: 83.3 } },
    { name: 'sodium chloride 0.9%', goes: { cells: 0, interstitium: 750, plasma: 250 } },
    { name: 'sodium chloride 3%', goes: { cells: -1555.6, interstitium: 1916.7, plasma: 638.9 } },
  ],
};

export const labels: TwoLabels = {
  ...named,
  kind: 'two-labels',
  same: 'the same 75.7 mmol/L in solution',
  labels: [
    { text: 'dextrose 1.5 %', form: 'dextrose monohydrate' },
    { text: 'glucose 1.36 %', form: 'glucose anhydrous' },
  ],
};

export const FIGURES: readonly Figure[] = [ions, vessels, basins, course, compared, litres, labels];

export const drawn = (figure: Figure): Element[] => everyElement(wellFormed(figureSvg(figure)));
export const texts = (elements: readonly Element[]) =>
  elements.filter(({ name }) => name === 'text').map(({ text }) => text);
export const ofClass = (elements: readonly Element[], name: string) =>
  elements.filter(({ attributes }) => attributes.class === name);
