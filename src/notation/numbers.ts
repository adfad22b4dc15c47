/** Numbers as they are written: decimals with a point and exact fractions; everything else is named, never guessed. */
import { type Decimal, decimal } from '../engine/decimal.ts';
import type { LimitKind, NumberForm } from './ast.ts';
import { LIMITS } from './limits.ts';

export type Numeral =
  | { readonly kind: 'number'; readonly value: Decimal; readonly decimals: number | null }
  /** `readings`: the numbers it could mean, safely written. */
  | { readonly kind: 'malformed'; readonly form: NumberForm; readonly readings: readonly string[] }
  | { readonly kind: 'beyond'; readonly what: LimitKind; readonly limit: number };

const VULGAR: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['½', [1, 2]],
  ['¼', [1, 4]],
  ['¾', [3, 4]],
  ['⅓', [1, 3]],
  ['⅔', [2, 3]],
  ['⅛', [1, 8]],
]);

const V = '½¼¾⅓⅔⅛';
/** Whatever looks like one number, well formed or not; a comma or a slash belongs to it only between digits. */
const NUMERAL = new RegExp(
  `[+-]?(?:\\d|\\.\\d|[${V}])[\\d.·${V}]*(?:[,/](?=\\d)[\\d.·${V}]*)*(?:[eE][+-]?\\d+|\\^[+-]?\\d+)?`,
  'y',
);
const DECIMAL = /^[+-]?(?:\d+(?:\.(\d*))?|\.(\d+))$/;
const FRACTION = /^([+-]?)(\d+)\/(\d+)$/;
const MIXED = new RegExp(`^([+-]?)(\\d*)([${V}])$`);

/** The end of the numeral that begins at `start` of normalised `text`; `start` itself when none begins there. */
export function numeralEnd(text: string, start: number): number {
  NUMERAL.lastIndex = start;
  return NUMERAL.test(text) ? NUMERAL.lastIndex : start;
}

/** Reads one numeral of normalised text. */
export function readNumeral(text: string): Numeral {
  const digits = text.replace(/\D/g, '').length;
  if (digits > LIMITS.digits) return { kind: 'beyond', what: 'digits', limit: LIMITS.digits };

  const written = DECIMAL.exec(text);
  if (written !== null) return within(decimal(text), (written[1] ?? written[2] ?? '').length);

  const fraction = FRACTION.exec(text);
  if (fraction !== null) {
    const under = decimal(fraction[3]!);
    if (under.isZero()) return { kind: 'malformed', form: 'zero-denominator', readings: [] };
    return within(signed(fraction[1]!, decimal(fraction[2]!).div(under)), null);
  }

  const mixed = MIXED.exec(text);
  if (mixed !== null) {
    const [over, under] = VULGAR.get(mixed[3]!)!;
    return within(signed(mixed[1]!, decimal(mixed[2] || '0').plus(decimal(over).div(under))), null);
  }
  return malformed(text);
}

/** `.9` → `0.9`, `5.` → `5`; null when a number is safely written. */
export function safeForm(text: string): string | null {
  if (/^[+-]?\.\d/.test(text)) return text.replace('.', '0.');
  return /^[+-]?\d+\.$/.test(text) ? text.slice(0, -1) : null;
}

function within(value: Decimal, decimals: number | null): Numeral {
  if (value.abs().gt(LIMITS.magnitude)) return { kind: 'beyond', what: 'magnitude', limit: LIMITS.magnitude };
  return { kind: 'number', value, decimals };
}

function signed(sign: string, value: Decimal): Decimal {
  return sign === '-' ? value.negated() : value;
}

function malformed(text: string): Numeral {
  const form = formOf(text);
  const readings = form === 'exponent' ? writtenOut(text) : form === 'glued' ? [] : separated(text);
  return { kind: 'malformed', form, readings: safe(readings) };
}

function formOf(text: string): NumberForm {
  if (/[eE^]/.test(text)) return 'exponent';
  if (text.includes(',')) return 'comma';
  return /[½¼¾⅓⅔⅛/]/.test(text) ? 'glued' : 'points';
}

/** Readings of digits with commas or several points between them: as groups of thousands, as decimals. */
function separated(text: string): string[] {
  const groups = text.split(/[,.·]/);
  const [first, ...rest] = groups as [string, ...string[]];
  const marks = text.replace(/[^,.·]/g, '');
  // the last mark is a decimal one when it stands once and differs from those before it
  const lastDiffers = rest.length > 1 && !marks.slice(0, -1).includes(marks.at(-1)!);
  const thousands = lastDiffers ? rest.slice(0, -1) : rest;
  const inThousands = /^[+-]?[1-9]\d{0,2}$/.test(first) && thousands.every((group) => /^\d{3}$/.test(group));

  if (rest.length === 1) {
    const asDecimal = `${first}.${rest[0]}`;
    if (marks === '·') return [asDecimal];
    const joined = first + rest[0];
    if (inThousands) return [joined, asDecimal];
    return /^[+-]?0/.test(first) ? [asDecimal] : [asDecimal, joined];
  }
  if (inThousands) return [lastDiffers ? `${first}${thousands.join('')}.${rest.at(-1)}` : groups.join('')];
  return marks.includes(',') ? [] : [`${first}.${rest.join('')}`, `${groups.slice(0, -1).join('')}.${rest.at(-1)}`];
}

function writtenOut(text: string): string[] {
  const [, base, mark, power] = /^(.*)([eE^])(.*)$/.exec(text)!;
  if (!DECIMAL.test(base!) || Math.abs(Number(power)) > 12) return [];
  if (mark !== '^')
    return [
      decimal(base!)
        .times(decimal(10).pow(Number(power)))
        .toFixed(),
    ];
  return base === '10' ? [decimal(10).pow(Number(power)).toFixed()] : [];
}

/** Only what reads as a number within bounds, without trailing zeros, each once. */
function safe(readings: readonly string[]): readonly string[] {
  const numbers = readings.filter((reading) => DECIMAL.test(reading) && readNumeral(reading).kind === 'number');
  return [...new Set(numbers.map((reading) => decimal(reading).toFixed()))];
}

const LOOKALIKE: Readonly<Record<string, string>> = { O: '0', o: '0', l: '1', I: '1' };

/** `10O0` → `1000`: digits among which letters stand that look like digits; null for anything else. */
export function lookalike(text: string): string | null {
  if (!/^[+-]?[\d.OolI]+$/.test(text)) return null;
  return safe([text.replace(/[OolI]/g, (letter) => LOOKALIKE[letter]!)])[0] ?? null;
}

/**
 * Readings of two numbers with a space between, of which the second carries the unit: `1 000` → 1000,
 * `1 1/2` → 1.5. Without the second number on its own, which is the caller's to word (`2 500 mL` may be 2 × 500 mL).
 */
export function joined(first: string, second: string): string | null {
  if (MIXED.test(second) && /^\d+$/.test(first) && second.length === 1) return first + second;
  if (FRACTION.test(second) && /^\d+$/.test(first)) {
    const fraction = readNumeral(second);
    if (fraction.kind !== 'number') return null;
    const sum = decimal(first).plus(fraction.value);
    return sum.decimalPlaces() <= 6 ? sum.toFixed() : null;
  }
  return /^\d+$/.test(first) && /^\d+(?:\.\d+)?$/.test(second) ? (safe([first + second])[0] ?? null) : null;
}

/** Whether a number and the one after a space look like one number: groups of thousands, a whole and a fraction. */
export function looksJoined(first: string, second: string): boolean {
  if (/^[1-9]\d{0,2}(?:\d{3})*$/.test(first) && /^\d{3}(?:\.\d+)?$/.test(second)) return true;
  return /^\d+$/.test(first) && (FRACTION.test(second) || (MIXED.test(second) && second.length === 1));
}
