/** Chemical symbols of drugs that have been given for each other (Joint Commission, official 'Do Not Use' list, 2009). */

const MORPHINE_OR_MAGNESIUM = ['magnesium sulfate', 'morphine sulfate'];
const READINGS: ReadonlyMap<string, readonly string[]> = new Map([
  ['ms', MORPHINE_OR_MAGNESIUM],
  ['mso4', MORPHINE_OR_MAGNESIUM],
]);

/** What a symbol can mean, by its key; null where it is not one of these. */
export function readingsOfSymbol(key: string): readonly string[] | null {
  return READINGS.get(key) ?? null;
}

/** Whether a name that is not known may be a known one misspelt: HCl is one letter from KCl, and no slip for it. */
export function isMisspelling(key: string): boolean {
  return key !== 'hcl';
}
