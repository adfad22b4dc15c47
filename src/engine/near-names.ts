/** Did you mean. */
import { distanceWithin } from './distance.ts';
import { ionNames } from './ions.ts';
import { nameKey, plainKey } from './names.ts';
import { shorthandTexts } from './shorthand.ts';
import { soluteNames } from './solutes.ts';
import { stockNames } from './stock-fluids.ts';

const named = (name: string) => ({ name, plain: plainKey(name) });
const BUILT_IN = [...soluteNames(), ...stockNames(), ...ionNames(), ...shorthandTexts()].map(named);

/** Longest text that is compared; no name is longer. */
const LONGEST = 80;
/** So many names of a note are compared, so that a long note with many slips is looked at in linear time. */
const MOST = 500;

/**
 * Names near a text that is none: at most three, nearest first, equals in the order of `more` and then of the data. A slip
 * or two, three in a long name, and always in less than half of the letters. Empty when nothing is near.
 */
export function nearNames(key: string, more: readonly string[]): readonly string[] {
  return nearest(key, [...more.slice(0, MOST).map(named), ...BUILT_IN]);
}

/** The same, among these names only. */
export function nearAmong(key: string, names: readonly string[]): readonly string[] {
  return nearest(key, names.map(named));
}

function nearest(key: string, names: readonly ReturnType<typeof named>[]): readonly string[] {
  const wanted = plainKey(key);
  if (wanted.length > LONGEST) return [];
  const allowed = wanted.length < 10 ? 2 : 3;
  const near = new Map<string, { name: string; distance: number }>();
  for (const { name, plain } of names) {
    const distance = distanceWithin(wanted, plain, allowed);
    if (distance === null || distance >= wanted.length / 2) continue;
    // One spelling of a name is enough: those that have the same key are equally far.
    if (!near.has(nameKey(name))) near.set(nameKey(name), { name, distance });
  }
  return [...near.values()]
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ name }) => name);
}
