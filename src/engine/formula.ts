/** Chemical formulas: `CaCl2·2H2O`, `Ca(C6H11O7)2`. */
import { type Decimal, decimal, ZERO } from './decimal.ts';
import { ATOMIC_WEIGHTS } from './reference.ts';

/** Atoms in one formula unit, by element. */
export type Composition = ReadonlyMap<string, number>;

const LONGEST = 100;
const MOST_ATOMS = 100_000;

/**
 * Reads a formula: elements with counts, groups in round brackets, and further molecules after a dot (`·` or `.`), each
 * perhaps with a count before it. Null when the text is no formula, or longer or larger than any medicine's.
 */
export function parseFormula(text: string): Composition | null {
  if (text.length > LONGEST) return null;
  const total = new Map<string, number>();
  for (const molecule of text.split(/[·.]/)) {
    const [, count, rest] = /^(\d*)(.*)$/s.exec(molecule) as unknown as [string, string, string];
    const composition = parseMolecule(rest);
    if (!composition) return null;
    addTimes(total, composition, count === '' ? 1 : Number(count));
  }
  const atoms = [...total.values()].reduce((sum, count) => sum + count, 0);
  return atoms > 0 && atoms <= MOST_ATOMS ? total : null;
}

function parseMolecule(text: string): Composition | null {
  const token = /([A-Z][a-z]?)(\d*)|(\()|\)(\d*)/y;
  const groups: Map<string, number>[] = [new Map()];
  while (token.lastIndex < text.length) {
    const match = token.exec(text);
    if (!match) return null;
    const [, element, count, opens, groupCount] = match;
    if (element !== undefined) addTimes(groups.at(-1)!, new Map([[element, 1]]), countOf(count));
    else if (opens) groups.push(new Map());
    else {
      const group = groups.pop()!;
      const outer = groups.at(-1);
      if (!outer) return null;
      addTimes(outer, group, countOf(groupCount));
    }
  }
  return groups.length === 1 && groups[0]!.size > 0 ? groups[0]! : null;
}

function countOf(digits: string | undefined): number {
  return digits ? Number(digits) : 1;
}

function addTimes(into: Map<string, number>, what: Composition, times: number): void {
  for (const [element, count] of what) into.set(element, (into.get(element) ?? 0) + count * times);
}

/** Molar mass in g/mol, from the standard atomic weights; null when the formula or an element of it is not known. */
export function molarMass(formula: string): Decimal | null {
  const composition = parseFormula(formula);
  if (!composition) return null;
  let mass = ZERO;
  for (const [element, count] of composition) {
    const weight = ATOMIC_WEIGHTS.get(element);
    if (!weight) return null;
    mass = mass.plus(weight.times(decimal(count)));
  }
  return mass;
}
