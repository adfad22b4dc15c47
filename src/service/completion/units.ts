/** Units that fit what a number measures, the usual ones first. */
import {
  findIon,
  findObservable,
  findSolute,
  findUnit,
  type Observable,
  sameDimension,
  UNIT_SYMBOLS,
} from '../../engine/index.ts';
import { keyOf, type Measured } from '../../notation/index.ts';
import { changeIn, PATIENT_LINES } from '../../note/index.ts';
import { askedOf, named, type Scene, subjectIn } from './scene.ts';
import type { Candidate } from './types.ts';

const VOLUMES = ['mL', 'L', 'dL'];
const STRENGTHS = ['%', 'mmol/L', 'mmol/mL', 'mEq/L', 'mEq/mL', 'g/L', 'mg/mL', 'units/mL', '% w/w'];
const ION_STRENGTHS = ['mmol/L', 'mEq/L'];
const AMOUNTS = [...VOLUMES, 'g', 'mg', 'mcg', 'mmol', 'mEq', 'units', 'kg'];
const ORDERED = ['mL', 'L', 'mL/kg', 'g', 'mg', 'mmol', 'mEq', 'units', 'mg/kg', 'g/kg', 'mmol/kg', 'mcg'];
const RATES = [
  ...['mL/h', 'mL/kg/h', 'mL/min', 'drops/min', 'mmol/h', 'mEq/h', 'mmol/kg/h', 'g/h', 'mg/h', 'mg/min', 'mcg/min'],
  ...['mg/kg/h', 'mg/kg/min', 'mcg/kg/h', 'mcg/kg/min', 'units/h', 'units/kg/h', 'L/d', 'mL/kg/d'],
];
const TIMES = ['h', 'min', 'd', 's', 'wk'];
const LOSSES = ['mL/h', 'mL/kg/h', 'mL/d'];

const SUBSTANCE_LINES: Readonly<Record<string, readonly string[]>> = {
  'molar mass': ['g/mol'],
  solubility: ['g/L'],
  'apparent volume': ['mL/g'],
  energy: ['kcal/g', 'kJ/g'],
  'sodium chloride equivalent': ['g/g'],
  'freezing point depression': ['°C'],
  dissociation: ['%'],
};

export function unitsFor(measured: Measured, scene: Scene): readonly Candidate[] {
  return symbolsFor(measured, scene).map((label) => ({ kind: 'unit', label }));
}

function symbolsFor(measured: Measured, scene: Scene): readonly string[] {
  switch (measured.of) {
    case 'amount':
      return AMOUNTS;
    case 'volume':
      return VOLUMES;
    case 'strength':
      return STRENGTHS;
    case 'order':
      return [...ORDERED, ...RATES];
    case 'rate':
      return RATES;
    case 'time':
      return TIMES;
    case 'drops':
      return ['drops/mL'];
    case 'tolerance':
      return [...new Set(['%', ...beside(measured.beside)])];
    case 'line':
      return ofLine(measured, scene);
    case 'figure':
      return changeIn(scene.block.text, measured.words)?.figure.fits ?? [];
    case 'asked':
      return ofAsked(measured.words, scene);
  }
}

/** Units of the same dimension. */
function beside(written: string | null): readonly string[] {
  const unit = written === null ? null : findUnit(written);
  if (!unit || unit.percent) return [];
  const alike = UNIT_SYMBOLS.filter((symbol) => sameDimension(findUnit(symbol)!.dimension, unit.dimension));
  return [unit.symbol, ...alike];
}

function ofLine({ words, first }: Extract<Measured, { of: 'line' }>, scene: Scene): readonly string[] {
  switch (scene.open?.kind) {
    case 'patient':
      if (first === 'urine' || first.startsWith('loss ')) return words === first ? LOSSES : ION_STRENGTHS;
      return PATIENT_LINES.find((line) => line.words === words)?.fits ?? [];
    case 'substance':
      return Object.hasOwn(SUBSTANCE_LINES, words) ? SUBSTANCE_LINES[words]! : [];
    case 'stock':
      return ofLabel(words, scene);
    default:
      return STRENGTHS;
  }
}

function ofLabel(words: string, scene: Scene): readonly string[] {
  if (words === 'container') return VOLUMES;
  if (words === 'other ions') return ['mEq/L'];
  const ion = findIon(words);
  if (ion) return ion.charge === null ? ['mmol/L'] : ION_STRENGTHS;
  if (isOwnIon(words, scene)) return ION_STRENGTHS;
  const observable = findObservable(words);
  if (observable && !findSolute(words)) return observable.unit ? [observable.unit] : [];
  return STRENGTHS;
}

function isOwnIon(key: string, { scope }: Scene): boolean {
  return scope.nameUses.some(({ of }) => of.kind === 'ion' && of.key === key);
}

/** By the longest run of last words that can be asked for. */
function ofAsked(words: { readonly start: number; readonly end: number }, scene: Scene): readonly string[] {
  const { block, model, open } = scene;
  const asked = subjectIn(scene, words)?.asked ?? askedOf(open);
  const text = block.text.slice(words.start, words.end);
  for (const { index } of text.matchAll(/(?<!\S)\S/g)) {
    const key = keyOf(text.slice(index));
    if (named(scene, 'substance').some(({ name }) => name?.key === key)) return OWN_SUBSTANCE;
    if (isOwnIon(key, scene)) return [...ION_STRENGTHS, 'mmol', 'mEq'];
    const observable = findObservable(key, model.policy.pharmacopoeia);
    if (observable) return ofObservable(observable, asked?.is === 'order');
  }
  return [];
}

const OWN_SUBSTANCE = ['mg/mL', 'g/L', '%', 'mmol/L', 'units/mL', 'mg', 'g', 'mmol', 'units'];

/** Of an order its total comes first. */
function ofObservable({ kind, unit, total, ion, substance }: Observable, ofOrder: boolean): readonly string[] {
  const first = (ofOrder ? [total, unit] : [unit, total]).filter(
    (symbol) => symbol !== null && symbol !== '',
  ) as string[];
  return [...new Set([...first, ...moreOf(kind, ion?.charge ?? null, substance?.molarMass != null)])];
}

function moreOf(kind: Observable['kind'], charge: number | null, molar: boolean): readonly string[] {
  switch (kind) {
    case 'volume':
      return VOLUMES;
    case 'ion':
    case 'sodium-load':
    case 'chloride-load':
      return charge === null ? [] : ['mEq/L', 'mEq'];
    case 'solute':
      return molar ? ['g/L', '%', 'mg/mL', 'g', 'mg'] : ['g/L', '%', 'g'];
    case 'duration':
      return TIMES;
    case 'free-water-for-patient':
    case 'plasma':
    case 'interstitium':
    case 'cells':
    case 'body-water':
    case 'free-water-deficit':
    case 'maintenance-volume':
      return ['mL', 'L'];
    default:
      return [];
  }
}
