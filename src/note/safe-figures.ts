/** Numbers with units as they stand in running text, and how each is written safely. */
import { findUnit } from '../engine/index.ts';
import { normalise } from '../notation/index.ts';
import type { Abbreviation } from './faults.ts';

/** A number, or `?`, with whatever is written behind it like a unit. Offsets into the text it was found in. */
export interface WrittenFigure {
  readonly start: number;
  readonly number: string;
  /** Between the number and its unit. */
  readonly space: string;
  /** Normalised; '' where there is none. */
  readonly unit: string;
  readonly end: number;
}

const FIGURE =
  /(?:(?<![\p{L}\p{N}.,:/^·-])|(?<=\d[xX]))(?<number>\d+\/\d+|\d*[½¼¾⅓⅔⅛]|\d+(?:\.\d*)?|\.\d+|\?)(?<space> {0,3})(?<unit>(?:m2(?!\d)|[\p{L}µ°²%/])*)/gu;

export function* figuresIn(text: string): Generator<WrittenFigure> {
  for (const { index, groups, 0: all } of normalise(text).matchAll(FIGURE)) {
    const { number, space, unit } = groups as { number: string; space: string; unit: string };
    yield { start: index, number, space, unit, end: index + all.length };
  }
}

/** `1.0` → `1`, `0.50` → `0.5`; null for a number that ends safely, and for one without a digit before its point. */
export function withoutTrailingZero(number: string): string | null {
  return /^\d+\.\d*0$/.test(number) ? number.replace(/\.?0+$/, '') : null;
}

/** `1.0` → `1`, `.5` → `0.5`; anything else as it is. */
export function safeNumber(number: string): string {
  return withoutTrailingZero(number.startsWith('.') ? `0${number}` : number) ?? number.replace(/^\./, '0.');
}

interface Misread {
  readonly kind: Abbreviation;
  readonly safe: string;
}

/** Parts of units that are read, or meant, and easily misread. */
const PARTS: ReadonlyMap<string, Misread> = new Map([
  ['ml', { kind: 'small-l', safe: 'mL' }],
  ['l', { kind: 'small-l', safe: 'L' }],
  ['dl', { kind: 'small-l', safe: 'dL' }],
  ['µg', { kind: 'micro', safe: 'mcg' }],
  ['ug', { kind: 'micro', safe: 'mcg' }],
  ['cc', { kind: 'cubic', safe: 'mL' }],
  ['U', { kind: 'activity', safe: 'units' }],
  ['u', { kind: 'activity', safe: 'units' }],
  ['IU', { kind: 'activity', safe: 'units' }],
  ['iu', { kind: 'activity', safe: 'units' }],
]);

/** `ml/h` → `mL/h`, with what is wrong with its first misread part; null for a unit that is safe, or none. */
export function safeUnit(unit: string): Misread | null {
  const parts = unit.split('/');
  const kind = parts.map((part) => PARTS.get(part)?.kind).find((found) => found !== undefined);
  if (!kind) return null;
  const safe = parts.map((part) => PARTS.get(part)?.safe ?? part).join('/');
  return findUnit(safe) ? { kind, safe } : null;
}

/** What an order measures out. Whatever is per volume is taken for a laboratory value or a strength. */
const ORDERED = new Set(['L', 'mL', 'dL', 'g', 'mg', 'mcg', 'ng', 'mol', 'mmol', 'micromol', 'Eq', 'mEq', 'units']);
const VOLUMES = new Set(['L', 'mL', 'dL']);

/** Whether an amount or a rate in that unit, safely written or not, is one that is ordered. */
export function isOrdered(unit: string): boolean {
  const written = safeUnit(unit)?.safe ?? unit;
  const [over, ...under] = (findUnit(written)?.symbol ?? '').split('/');
  return ORDERED.has(over!) && !under.some((part) => VOLUMES.has(part));
}
