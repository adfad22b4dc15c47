/** Strengths written as a ratio, `1:1000`: grams in so many millilitres. */
import { decimal } from '../engine/decimal.ts';

/** Digits on both sides, those behind the colon perhaps in groups of three. */
const RATIO = /^(\d{1,6}):(\d{1,3}(?:[ ,]\d{3}){1,3}|\d{1,9})(?![\d.:])/;
const MILLIGRAMS = decimal(1000);
/** More digits than this say that the division has no end. */
const MOST_DECIMALS = 6;

/** The ratio that begins a text, with its strength in mg/mL or, below 0.01 mg/mL, mcg/mL; null when none does. */
export function readRatio(text: string): { readonly text: string; readonly safe: string | null } | null {
  const [written, over, under] = RATIO.exec(text) ?? [];
  if (written === undefined) return null;
  const volume = decimal(under!.replace(/[ ,]/g, ''));
  if (volume.isZero()) return { text: written, safe: null };
  const perMl = decimal(over!).times(MILLIGRAMS).div(volume);
  const small = perMl.lt('0.01');
  const value = small ? perMl.times(1000) : perMl;
  const ends = value.decimalPlaces() <= MOST_DECIMALS && !value.isZero();
  return { text: written, safe: ends ? `${value.toFixed()} ${small ? 'mcg/mL' : 'mg/mL'}` : null };
}
