/** First words of a line: those that fit what is open there, and whole blocks of lines. */
import { fixedObservables } from '../../engine/index.ts';
import { BODIES, ONSETS, PATIENT_LINES, SEXES } from '../../note/index.ts';
import { snippet } from '../gaps.ts';
import type { Scene } from './scene.ts';
import type { Candidate } from './types.ts';

const STEPS: readonly Candidate[] = [
  { kind: 'word', label: 'water to', snippet: snippet('water to ‹›'), detail: 'make up to a final volume' },
  { kind: 'word', label: 'withdraw', snippet: snippet('withdraw ‹›'), detail: 'take out and discard' },
  {
    kind: 'word',
    label: 'exchange',
    snippet: snippet('exchange ‹volume› for ‹fluid›'),
    detail: 'take out, and put a fluid in its place',
  },
];
const CLAIM: Candidate = {
  kind: 'word',
  label: 'claim',
  snippet: snippet('claim ‹›'),
  detail: 'hold a number against what it works out at',
};
const SHOW: Candidate = { kind: 'word', label: 'show', snippet: snippet('show ‹›'), detail: 'print a result' };
const LESSON: readonly Candidate[] = [
  {
    kind: 'word',
    label: 'ask',
    snippet: snippet('ask "‹question›" show ‹›'),
    detail: 'a question whose answer is folded away',
  },
  {
    kind: 'word',
    label: 'what if',
    snippet: snippet('what if ‹figure› ‹number› ‹unit› show ‹result›'),
    detail: 'results under other figures',
  },
];
const TARGET: Candidate = {
  kind: 'word',
  label: 'target',
  snippet: snippet('target ‹›'),
  detail: 'solve an amount for it',
};
const ACCEPT: Candidate = {
  kind: 'word',
  label: 'accept',
  snippet: snippet('accept ‹code› because "‹reason›"'),
  detail: 'take a finding, with the reason',
};
export const COMPARE: Candidate = {
  kind: 'word',
  label: 'compare',
  snippet: snippet('compare ‹fluid›, ‹fluid› by ‹result›'),
  detail: 'set fluids side by side',
};
const USE: Candidate = { kind: 'word', label: 'use', snippet: snippet('use ‹›'), detail: 'names of another note' };

/** Places to fill in are words, never numbers: a block left as it is says that it is unfinished. */
const BLOCKS: readonly Candidate[] = [
  block('mixture', 'what is mixed, step by step', 'mixture ‹name› "‹Title›"\n  ‹amount› ‹fluid›'),
  block('give', 'an order', 'give ‹fluid› at ‹rate› for ‹time› by ‹route› to ‹patient›'),
  block('patient', 'who it is given to', 'patient ‹name›\n  weight ‹number› kg'),
  block('stock', 'a fluid by its label', 'stock ‹name› "‹Title›"\n  ‹ion› ‹number› mmol/L'),
  block('substance', 'a solute of your own', 'substance ‹name›\n  molar mass ‹number› g/mol'),
];

function block(label: string, detail: string, lines: string): Candidate {
  return { kind: 'block', label, detail, snippet: snippet(lines) };
}

function lineWords(scene: Scene): readonly Candidate[] {
  const { open } = scene;
  switch (open?.kind) {
    case 'mixture':
      return [...STEPS, CLAIM, SHOW, TARGET, ACCEPT];
    case 'patient':
      return [...patientLines(), SHOW, CLAIM, ACCEPT];
    case 'stock':
      return [...labelLines(), CLAIM, SHOW, ACCEPT];
    case 'substance':
      return [...substanceLines(), ACCEPT];
    case 'give':
      return [CLAIM, SHOW, ACCEPT];
    default:
      return [CLAIM, SHOW];
  }
}

export function lineStarts(scene: Scene): readonly Candidate[] {
  const words = [...lineWords(scene), COMPARE, ...LESSON, USE];
  return scene.open ? [...words, ...BLOCKS] : [...BLOCKS, ...words];
}

function figure(label: string, unit: string | undefined): Candidate {
  return {
    kind: 'word',
    label,
    snippet: snippet(`${label} ‹›${unit ? ` ${unit}` : ''}`),
    ...(unit && { detail: unit }),
  };
}

function phrase(label: string): Candidate {
  return { kind: 'word', label };
}

function patientLines(): readonly Candidate[] {
  return [
    ...PATIENT_LINES.map(({ words, fits }) => figure(words, fits[0])),
    ...SEXES.map((sex) => phrase(`sex ${sex}`)),
    ...ONSETS.map((onset) => phrase(`onset ${onset}`)),
    phrase('osmotic demyelination risk high'),
    figure('urine', 'mL/h'),
    { kind: 'word', label: 'loss', snippet: snippet('loss ‹name› ‹› mL/h'), detail: 'mL/h' },
  ];
}

function labelLines(): readonly Candidate[] {
  const ions = fixedObservables().filter(({ kind }) => kind === 'ion');
  const checked = fixedObservables().filter(({ kind }) => kind === 'osmolarity' || kind === 'osmolality');
  return [
    ...ions.map(({ name }) => figure(name, 'mmol/L')),
    figure('container', 'mL'),
    figure('other ions', 'mEq/L'),
    ...checked.map(({ name, unit }) => figure(name, unit)),
  ];
}

function substanceLines(): readonly Candidate[] {
  return [
    figure('molar mass', 'g/mol'),
    { kind: 'word', label: 'gives', snippet: snippet('gives ‹›'), detail: 'ions, each with its number' },
    figure('solubility', 'g/L'),
    figure('apparent volume', 'mL/g'),
    figure('energy', 'kcal/g'),
    figure('sodium chloride equivalent', 'g/g'),
    {
      kind: 'word',
      label: 'freezing point depression',
      snippet: snippet('freezing point depression ‹› °C at ‹›%'),
      detail: '°C',
    },
    figure('dissociation', '%'),
    ...BODIES.map((body) => phrase(`in the body ${body}`)),
  ];
}
