/**
 * Units as data: a closed table of atoms, and ratios made of them.
 *
 * Base units of the engine, one a dimension: g, mL, mmol, mEq, mOsm, h, kcal, m, units (activity), drops, kg of body
 * weight, kg of water, m2 of body surface. `Unit.factor` times a value gives the value in base units.
 */
import { type Decimal, decimal, ONE } from './decimal.ts';
import { distanceWithin } from './distance.ts';
import { ATOMS, type Atom, MISTAKEN } from './unit-table.ts';

/** The kinds of things that are measured. */
export type Base =
  | 'mass'
  | 'volume'
  | 'amount'
  | 'charge'
  | 'osmoles'
  | 'time'
  | 'energy'
  | 'length'
  | 'area'
  | 'activity'
  | 'drops'
  | 'body-weight'
  | 'water-mass'
  | 'solution-mass'
  | 'temperature'
  | 'relative';

/** What a unit measures: one thing, perhaps per one or two others (`mg/kg/h` is mass per body weight per time). */
export interface Dimension {
  readonly over: Base;
  readonly under: readonly Base[];
}

/** A unit that was read. `%` has dimension mass per volume (g per 100 mL) and `percent: true`. */
export interface Unit {
  /** Canonical spelling: `mmol/L`, `mcg/kg/min`, `%`. */
  readonly symbol: string;
  readonly factor: Decimal;
  readonly dimension: Dimension;
  readonly percent: boolean;
}

const PERCENT: Unit = {
  symbol: '%',
  factor: decimal('0.01'),
  dimension: { over: 'mass', under: ['volume'] },
  percent: true,
};
/** g in 100 g of solution. */
const BY_WEIGHT: Unit = {
  symbol: '% w/w',
  factor: decimal('0.01'),
  dimension: { over: 'mass', under: ['solution-mass'] },
  percent: false,
};
const BODY_SURFACE: Unit = {
  symbol: '% of body surface',
  factor: decimal('0.01'),
  dimension: { over: 'relative', under: [] },
  percent: false,
};

/** Canonical spellings of the atoms and of the two percentages, in the order of the table. */
export const UNIT_SYMBOLS: readonly string[] = [
  ...ATOMS.map(({ symbol }) => symbol),
  '%',
  BY_WEIGHT.symbol,
  BODY_SURFACE.symbol,
];

const SPELLED: ReadonlyMap<string, Known> = new Map(
  ATOMS.flatMap((atom) => {
    const known: Known = { symbol: atom.symbol, base: atom.base, factor: factorOf(atom) };
    return [atom.symbol, ...atom.aliases].map((text) => [text, known] as const);
  }),
);

/** An atom, its factor worked out once. */
type Known = Pick<Unit, 'symbol' | 'factor'> & { readonly base: Base };

/** Units by the spelling that was read. All that anybody writes fit in, and a note that tries them all does not fill memory. */
const READ = new Map<string, Unit>();
const MOST_READ = 500;

/**
 * The unit that a text spells, exactly or by a listed alias; null when it is none. Letter case counts. Ratios have one or
 * two `/`. `kg` below a `/` is body weight, below osmoles it is water.
 */
export function findUnit(text: string): Unit | null {
  const known = READ.get(text);
  if (known) return known;
  const found = readUnit(text);
  if (found && READ.size < MOST_READ) READ.set(text, found);
  return found;
}

function readUnit(text: string): Unit | null {
  if (text === PERCENT.symbol || text === `${PERCENT.symbol} w/v`) return PERCENT;
  if (text === BY_WEIGHT.symbol) return BY_WEIGHT;
  if (text === BODY_SURFACE.symbol) return BODY_SURFACE;
  const [above, ...below] = text.split('/');
  const over = SPELLED.get(above as string);
  if (!over || below.length > 2) return null;
  let { symbol, factor } = over;
  const under: Base[] = [];
  for (const part of below) {
    const atom = SPELLED.get(part);
    if (!atom) return null;
    const perKilogram = atom.symbol === 'kg';
    const base = perKilogram ? (over.base === 'osmoles' ? 'water-mass' : 'body-weight') : atom.base;
    if (under.includes(base)) return null;
    under.push(base);
    symbol += `/${atom.symbol}`;
    if (!perKilogram) factor = factor.div(atom.factor);
  }
  return { symbol, factor, dimension: { over: over.base, under }, percent: false };
}

/** A unit known to exist, for constants of the program: `unit('mL')`. */
export function unit(symbol: string): Unit {
  const found = findUnit(symbol);
  if (!found) throw new RangeError(`no such unit: ${symbol}`);
  return found;
}

function factorOf(atom: Atom): Decimal {
  const [over, under] = atom.factor.split('/');
  return decimal(over as string).div(under ? decimal(under) : ONE);
}

/** Proposals for a text that is no unit, at most three, nearest first: `Mg` to `mg`, `cc/h` to `mL/h`. */
export function nearUnits(text: string): readonly string[] {
  if (text.endsWith('.')) {
    const stopped = findUnit(text.slice(0, -1));
    if (stopped) return [stopped.symbol];
  }
  const parts = text.split('/');
  if (parts.length > 3) return [];
  let ratios = [''];
  for (const part of parts) {
    const near = nearAtoms(part);
    ratios = ratios.flatMap((ratio) => near.map((atom) => (ratio ? `${ratio}/${atom}` : atom))).slice(0, 9);
  }
  return ratios.filter((ratio) => ratio !== text && findUnit(ratio)).slice(0, 3);
}

/** Where only letter case is wrong, nothing else is proposed. */
function nearAtoms(text: string): readonly string[] {
  const mistaken = MISTAKEN.get(text);
  if (mistaken) return mistaken;
  const folded = text.toLowerCase();
  const near = new Map<string, number>();
  for (const [spelling, { symbol }] of SPELLED) {
    const allowed = spelling.length < 3 ? stutter(folded) : spelling.length < 6 ? 1 : 2;
    const distance = distanceWithin(folded, spelling.toLowerCase(), allowed);
    if (distance !== null && distance < (near.get(symbol) ?? Number.POSITIVE_INFINITY)) near.set(symbol, distance);
  }
  const sorted = [...near].sort((a, b) => a[1] - b[1]);
  const caseOnly = sorted.filter(([, distance]) => distance === 0);
  return (caseOnly.length > 0 ? caseOnly : sorted).map(([symbol]) => symbol);
}

/** Of a unit of two letters, only one letter too many is a slip; any other change makes it another unit. */
function stutter(text: string): 0 | 1 {
  return text.length === 3 ? 1 : 0;
}

/** Whether two dimensions are the same; the order of what stands below does not count, where nothing stands twice. */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.over === b.over && a.under.length === b.under.length && a.under.every((base) => b.under.includes(base));
}

const WORDS: Readonly<Record<Base, string>> = {
  mass: 'mass',
  volume: 'volume',
  amount: 'amount',
  charge: 'equivalents',
  osmoles: 'osmoles',
  time: 'time',
  energy: 'energy',
  length: 'length',
  area: 'area',
  activity: 'units of activity',
  drops: 'drops',
  'body-weight': 'body weight',
  'water-mass': 'mass of water',
  'solution-mass': 'mass of solution',
  temperature: 'temperature',
  relative: 'a share',
};

/** A dimension in words: `amount per volume`, `volume per body weight per time`. */
export function dimensionWords(dimension: Dimension): string {
  return [dimension.over, ...dimension.under].map((base) => WORDS[base]).join(' per ');
}

/** A volume by itself: mL, not mL/h. */
export function isVolume(u: Unit): boolean {
  return isPlain(u, 'volume');
}

/** A mass by itself. */
export function isMass(u: Unit): boolean {
  return isPlain(u, 'mass');
}

/** A time by itself. */
export function isTime(u: Unit): boolean {
  return isPlain(u, 'time');
}

function isPlain(u: Unit, base: Base): boolean {
  return u.dimension.over === base && u.dimension.under.length === 0;
}

/** `%`, or anything per volume that is not per time as well. */
export function isStrength(u: Unit): boolean {
  return (u.dimension.under.includes('volume') && !isRate(u)) || isPer(u, 'solution-mass');
}

/** Anything per that, and per nothing else. */
export function isPer({ dimension: { under } }: Unit, base: Base): boolean {
  return under.length === 1 && under[0] === base;
}

/** Anything per time. */
export function isRate(u: Unit): boolean {
  return u.dimension.under.includes('time');
}
