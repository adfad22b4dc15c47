/** The reference data of `shared/`, typed; tables of the models and graduations are imported where they are used. */
import atomicWeights from '../../shared/atomic-weights.json' with { type: 'json' };
import bodies from '../../shared/bodies.json' with { type: 'json' };
import limits from '../../shared/limits.json' with { type: 'json' };
import orderLimitData from '../../shared/order-limits.json' with { type: 'json' };
import particleData from '../../shared/particles.json' with { type: 'json' };
import plasmaData from '../../shared/plasma.json' with { type: 'json' };
import routeData from '../../shared/routes.json' with { type: 'json' };
import shorthandData from '../../shared/shorthand.json' with { type: 'json' };
import sourceData from '../../shared/sources.json' with { type: 'json' };
import balanced from '../../shared/stock-fluids/balanced.json' with { type: 'json' };
import colloids from '../../shared/stock-fluids/colloids-and-amino-acids.json' with { type: 'json' };
import concentrates from '../../shared/stock-fluids/concentrates.json' with { type: 'json' };
import dextrose from '../../shared/stock-fluids/dextrose.json' with { type: 'json' };
import dextroseSaline from '../../shared/stock-fluids/dextrose-saline.json' with { type: 'json' };
import otherFluids from '../../shared/stock-fluids/others.json' with { type: 'json' };
import saline from '../../shared/stock-fluids/sodium-chloride.json' with { type: 'json' };
import chlorides from '../../shared/substances/chlorides-and-sulfate.json' with { type: 'json' };
import molecules from '../../shared/substances/molecules.json' with { type: 'json' };
import phosphates from '../../shared/substances/phosphates.json' with { type: 'json' };
import precursors from '../../shared/substances/precursors.json' with { type: 'json' };
import { type Decimal, decimal } from './decimal.ts';

/** A value of the reference data: a decimal as text, its unit, and where it comes from. */
export interface Datum {
  readonly value: string;
  readonly unit: string;
  /** Key into the sources, or `from memory`, `worked out here`, `common practice, no source`. */
  readonly source: string;
  readonly how?: string;
}

/** g of the anhydrous substance in 100 g of water at one temperature. */
export type SolubilityDatum = Datum & { readonly celsius: string };

/** One crystal form of a substance. */
export interface FormData {
  readonly id: string;
  readonly name: string;
  /** Molecules of water in the crystal. */
  readonly waters: number;
  /** What is said before or after the family's name to mean this form. */
  readonly words: readonly string[];
  readonly listedStrengths: readonly Datum[];
  /** kcal/g. */
  readonly energy?: Datum;
  /** g/g. */
  readonly sodiumChlorideEquivalent?: Datum;
}

/** One solute, its names and its crystal forms; masses are those of the anhydrous substance. */
export interface FamilyData {
  readonly id: string;
  readonly name: string;
  readonly formula: string | null;
  readonly gives: readonly { readonly particle: string; readonly count: number }[];
  /** Names that share a default form; none where the pharmacopoeia leaves the form open. */
  readonly names: readonly {
    readonly texts: readonly string[];
    readonly default?: Partial<
      Readonly<Record<'USP' | 'Ph. Eur.', { readonly form: string; readonly source: string }>>
    >;
  }[];
  readonly apparentVolume: Datum;
  readonly solubility: readonly SolubilityDatum[];
  readonly solutionOnly?: boolean;
  readonly forms: readonly FormData[];
}

/** A stock fluid by its salts, by its label, or by both. */
export interface StockData {
  readonly id: string;
  readonly name: string;
  readonly synonyms: readonly string[];
  /** Grams in 1 L. */
  readonly recipe: readonly { readonly substance: string; readonly grams: string }[];
  /** mmol in 1 L of particles that the recipe does not give. */
  readonly label?: readonly { readonly particle: string; readonly mmol: string; readonly source: string }[];
  /** Particles that the label leaves out. */
  readonly notStated?: readonly string[];
  readonly source: string;
  readonly stated: readonly (Datum & { readonly observable: string })[];
  /** Where the stated and the worked-out figures differ, and why. */
  readonly difference?: string;
  readonly note: string;
}

/** Standard atomic weights by the symbol of the element. */
export const ATOMIC_WEIGHTS: ReadonlyMap<string, Decimal> = new Map(
  Object.entries(atomicWeights.weights).map(([element, weight]) => [element, decimal(weight)]),
);
/** `shared/particles.json`. */
export const PARTICLE_DATA = particleData;
/** `shared/substances/`. */
export const FAMILY_DATA: readonly FamilyData[] = [chlorides, precursors, phosphates, molecules].flatMap(
  ({ families }) => families as readonly FamilyData[],
);
/** Names that mean more than one substance. */
export const AMBIGUOUS_DATA = phosphates.ambiguous;
/** `shared/stock-fluids/`, group by group. */
export const STOCK_DATA = [saline, dextrose, dextroseSaline, balanced, concentrates, colloids, otherFluids].map(
  ({ title, fluids }) => ({ title, fluids: fluids as readonly StockData[] }),
);
/** `shared/shorthand.json`. */
export const SHORTHAND_DATA = shorthandData.shorthand;
/** One limit of orders; see `src/engine/order-limits.ts`. */
export interface OrderLimitData extends Datum {
  readonly id: string;
  /** What it limits, for whom: a phrase. */
  readonly title: string;
  /** YYYY or YYYY-MM-DD of the source, where known. */
  readonly date?: string;
  /** Where sources disagree: a sentence. */
  readonly disagree?: string;
  /** What is used instead by the practice of a region. */
  readonly regions?: Partial<Readonly<Record<'UK' | 'US', Datum>>>;
}

/** `shared/order-limits.json`. */
export const ORDER_LIMIT_DATA: readonly OrderLimitData[] = orderLimitData.limits;
/** `shared/plasma.json`. */
export const PLASMA_DATA: Readonly<Record<'cations' | 'anions', readonly (Datum & { readonly name: string })[]>> =
  plasmaData;
/** `shared/routes.json`. */
export const ROUTE_DATA = routeData.routes;
/** `shared/bodies.json`. */
export const BODIES = bodies;
/** `shared/limits.json`. */
export const LIMITS = limits;

/** The title of a source, for showing; what is no key (`from memory`) stands for itself. */
export function sourceTitle(source: string): string {
  const known: Readonly<Record<string, { readonly title: string; readonly year: string | null }>> = sourceData.sources;
  const found = Object.hasOwn(known, source) ? known[source] : undefined;
  if (!found) return source;
  return found.year === null ? found.title : `${found.title}, ${found.year}`;
}
