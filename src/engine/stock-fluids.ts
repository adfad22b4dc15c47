/** Stock fluids by the salts they are made from. */
import { type Contents, ofSolute, plus, water } from './contents.ts';
import { type Decimal, decimal, ZERO } from './decimal.ts';
import { plainKey } from './names.ts';
import { STOCK_DATA, type StockData } from './reference.ts';
import { mmolOfGrams, type Substance, substanceById } from './substances.ts';

/** A fluid bought ready made, as the sum of its salts. */
export interface StockFluid {
  readonly id: string;
  readonly name: string;
  /** 1000 mL of it. */
  readonly perLitre: Contents;
  /** Grams in 1 L. */
  readonly recipe: readonly { readonly substance: Substance; readonly grams: Decimal }[];
  /** What labels and pharmacopoeias state, rounded as they round. */
  readonly stated: readonly {
    readonly observable: string;
    readonly value: Decimal;
    readonly unit: string;
    readonly source: string;
  }[];
  readonly note: string;
  /** Keys into `shared/sources.json`; the first is that of the recipe. */
  readonly sources: readonly string[];
}

const LITRE = decimal(1000);

function fluidOf(data: StockData): StockFluid {
  const recipe = data.recipe.map(({ substance, grams }) => ({
    substance: substanceById(substance)!,
    grams: decimal(grams),
  }));
  return {
    id: data.id,
    name: data.name,
    perLitre: recipe.reduce(
      (sum, { substance, grams }) => plus(sum, ofSolute(substance, mmolOfGrams(grams, substance.molarMass), ZERO)),
      water(LITRE),
    ),
    recipe,
    stated: data.stated.map(({ observable, value, unit, source }) => ({
      observable,
      value: decimal(value),
      unit,
      source,
    })),
    note: data.note,
    sources: [...new Set([data.source, ...data.stated.map(({ source }) => source)])],
  };
}

const ALL: readonly StockFluid[] = STOCK_DATA.map(fluidOf);

const BY_NAME: ReadonlyMap<string, StockFluid> = new Map(
  STOCK_DATA.flatMap(({ name, synonyms }, index) =>
    [name, ...synonyms].map((text) => [plainKey(text), ALL[index]!] as const),
  ),
);

/** Every stock fluid, in the order of the data. */
export function stockFluids(): readonly StockFluid[] {
  return ALL;
}

/** The stock fluid of that name or synonym; apostrophes do not count (`ringers lactate`). */
export function findStockFluid(key: string): StockFluid | null {
  return BY_NAME.get(plainKey(key)) ?? null;
}

/** Every name a stock fluid can be called by, as written in the data. */
export function stockNames(): readonly string[] {
  return STOCK_DATA.flatMap(({ name, synonyms }) => [name, ...synonyms]);
}
