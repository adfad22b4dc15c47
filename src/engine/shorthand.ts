/** Trade shorthand: `D5W`, `½ NS`, `LR`. Common practice, no source. */
import { decimal } from './decimal.ts';
import { formatDecimal } from './format.ts';
import { plainKey } from './names.ts';
import { SHORTHAND_DATA } from './reference.ts';

/** A trade abbreviation and what it stands for. */
export interface Shorthand {
  /** As the trade writes it: `D5W`. */
  readonly text: string;
  /** In the words of the notation: `dextrose 5% in water`. */
  readonly means: string;
  /** Other readings, in the same words; empty where there is one only. */
  readonly alternatives: readonly string[];
}

const VULGAR: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '⅓': '1/3' };

const BY_KEY: ReadonlyMap<string, Shorthand> = new Map(
  SHORTHAND_DATA.flatMap(({ texts, readings }) => {
    const [means, ...alternatives] = readings as [string, ...string[]];
    return texts.map((text) => [shortKey(text), { text, means, alternatives }] as const);
  }),
);

/** Spaces, hyphens and apostrophes do not count in shorthand: `D5 1/2 NS` is `d51/2ns`. */
function shortKey(text: string): string {
  return plainKey(text.replace(/[½¼⅓]/g, (sign) => VULGAR[sign]!)).replaceAll(' ', '');
}

/**
 * What a shorthand means. A number before `NS` has two readings: `0.45 NS` may be sodium chloride 0.45 %, or 0.45 of the
 * strength of normal saline.
 */
export function findShorthand(key: string): Shorthand | null {
  if (key.length > 40) return null;
  return BY_KEY.get(shortKey(key)) ?? numberBeforeSaline(plainKey(key));
}

function numberBeforeSaline(key: string): Shorthand | null {
  const [, dextrose, strength] = /^(?:d(\d{1,2}) )?(\d?\.\d{1,3})%? ?(?:ns|normal saline)$/.exec(key) ?? [];
  if (strength === undefined) return null;
  const vehicle = dextrose === undefined ? '' : `dextrose ${dextrose}% in `;
  const written = decimal(strength.startsWith('.') ? `0${strength}` : strength);
  const reading = (percent: typeof written) => `${vehicle}sodium chloride ${formatDecimal(percent, 4)}%`;
  return {
    text: `${vehicle && `D${dextrose} `}${written} NS`,
    means: reading(written),
    alternatives: [reading(written.times('0.9'))],
  };
}

/** Every shorthand, as written in the data. */
export function shorthandTexts(): readonly string[] {
  return SHORTHAND_DATA.flatMap(({ texts }) => texts);
}
