import { nameKey } from '../engine/names.ts';

/**
 * The one table of characters that mean the same.
 *
 * Each is one UTF-16 unit and stands for one, so offsets into the normalised text are offsets into the source.
 */
const ALIKE: readonly (readonly [string, string])[] = [
  // tab, vertical tab, form feed, the Unicode spaces, line separators inside a line, zero-width space, byte order mark
  ['\t\v\f\u0085\u00a0\u1680\u2000-\u200b\u2028\u2029\u202f\u205f\u3000\ufeff', ' '],
  // single quotation marks and the modifier apostrophe
  ['\u2018\u2019\u201b\u02bc', "'"],
  // hyphens, figure dash, en dash, minus
  ['\u2010-\u2013\u2212', '-'],
  // Greek mu for the micro sign
  ['\u03bc', '\u00b5'],
];

/** `text` with like characters written one way; as long as `text`, unit for unit. Line ends stay. */
export function normalise(text: string): string {
  if (!ANY_ALIKE.test(text)) return text;
  let result = text;
  for (const [alike, written] of PATTERNS) result = result.replace(alike, written);
  return result;
}

const PATTERNS = ALIKE.map(([alike, written]) => [new RegExp(`[${alike}]`, 'g'), written] as const);
const ANY_ALIKE = new RegExp(`[${ALIKE.map(([alike]) => alike).join('')}]`);

/** For looking up: as names are compared, whatever the characters they are written with. */
export function keyOf(text: string): string {
  return nameKey(normalise(text));
}

/** As written, with inner white space reduced to one space. */
export function spacedOnce(text: string): string {
  return text.replace(SPACES, ' ');
}

const SPACES = new RegExp(`[ ${ALIKE[0]![0]}]+`, 'g');
