/** The reference data of `shared/`, typed. The one place where they are imported. */
import atomicWeights from '../../shared/atomic-weights.json' with { type: 'json' };
import limits from '../../shared/limits.json' with { type: 'json' };
import particleData from '../../shared/particles.json' with { type: 'json' };
import shorthandData from '../../shared/shorthand.json' with { type: 'json' };
import sourceData from '../../shared/sources.json' with { type: 'json' };
import stockData from '../../shared/stock-fluids.json' with { type: 'json' };
import substanceData from '../../shared/substances.json' with { type: 'json' };
import { type Decimal, decimal } from './decimal.ts';

/** A value of the reference data: a decimal as text, its unit, and where it comes from. */
export interface Datum {
  readonly value: string;
  readonly unit: string;
  /** Key into the sources, or `from memory`, `worked out here`, `common practice, no source`. */
  readonly source: string;
  readonly how?: string;
}

/** One crystal form of a substance. */
export interface FormData {
  readonly id: string;
  readonly name: string;
  /** Molecules of water in the crystal. */
  readonly waters: number;
  /** What is said before or after the family's name to mean this form. */
  readonly words: readonly string[];
  readonly listedStrengths: readonly Datum[];
}

/** One solute, its names and its crystal forms; masses are those of the anhydrous substance. */
export interface FamilyData {
  readonly id: string;
  readonly name: string;
  readonly formula: string;
  readonly gives: readonly { readonly particle: string; readonly count: number }[];
  readonly names: readonly {
    readonly text: string;
    readonly default?: Readonly<Record<'USP' | 'Ph. Eur.', { readonly form: string; readonly source: string }>>;
  }[];
  readonly apparentVolume: Datum;
  readonly solubility: (Datum & { readonly celsius: string }) | null;
  readonly forms: readonly FormData[];
}

/** A stock fluid by its salts. */
export interface StockData {
  readonly id: string;
  readonly name: string;
  readonly synonyms: readonly string[];
  /** Grams in 1 L. */
  readonly recipe: readonly { readonly substance: string; readonly grams: string }[];
  readonly source: string;
  readonly stated: readonly (Datum & { readonly observable: string })[];
  readonly note: string;
}

/** Standard atomic weights by the symbol of the element. */
export const ATOMIC_WEIGHTS: ReadonlyMap<string, Decimal> = new Map(
  Object.entries(atomicWeights.weights).map(([element, weight]) => [element, decimal(weight)]),
);
/** `shared/particles.json`. */
export const PARTICLE_DATA = particleData.particles;
/** `shared/substances.json`. */
export const FAMILY_DATA = substanceData.families as readonly FamilyData[];
/** `shared/stock-fluids.json`. */
export const STOCK_DATA = stockData.fluids as readonly StockData[];
/** `shared/shorthand.json`. */
export const SHORTHAND_DATA = shorthandData.shorthand;
/** `shared/limits.json`. */
export const LIMITS = limits;

/** The title of a source, for showing; what is no key (`from memory`) stands for itself. */
export function sourceTitle(source: string): string {
  const known: Readonly<Record<string, { readonly title: string; readonly year: string | null }>> = sourceData.sources;
  const found = Object.hasOwn(known, source) ? known[source] : undefined;
  if (!found) return source;
  return found.year === null ? found.title : `${found.title}, ${found.year}`;
}
