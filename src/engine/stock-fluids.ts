/** Stock fluids by the salts they are made from, or by what their labels state. */
import { type Contents, ofParticles, ofSolute, plus, water } from './contents.ts';
import { atMost, type Decimal, decimal, ZERO } from './decimal.ts';
import { formatDecimal } from './format.ts';
import { plainKey } from './names.ts';
import { particleById } from './particles.ts';
import type { Quantity } from './quantity.ts';
import { STOCK_DATA, type StockData } from './reference.ts';
import { mmolOfGrams, type Substance, substanceById } from './substances.ts';
import { unit } from './units.ts';

/** A figure that a label, pharmacopoeia or table states, rounded as it rounds. */
export interface Stated {
  readonly observable: string;
  readonly value: Decimal;
  readonly unit: string;
  readonly source: string;
}

/** A fluid bought ready made. */
export interface StockFluid {
  readonly id: string;
  readonly name: string;
  /** Title of its group: `Dextrose and glucose`. */
  readonly group: string;
  /** 1000 mL of it. */
  readonly perLitre: Contents;
  /** Whether all it holds is weighed from the recipe, or the ions are those that a label states. */
  readonly by: 'salts' | 'label';
  /** Grams in 1 L of what it is weighed from; empty where only the label is known. */
  readonly recipe: readonly { readonly substance: Substance; readonly grams: Decimal }[];
  readonly stated: readonly Stated[];
  /** Where the stated and the worked-out figures differ, and why; empty where they do not. */
  readonly difference: string;
  readonly note: string;
  /** Keys into `shared/sources.json`; the first is that of the recipe or the label. */
  readonly sources: readonly string[];
}

const LITRE = decimal(1000);

function fluidOf(data: StockData, group: string): StockFluid {
  const { label = [], notStated = [] } = data;
  const recipe = data.recipe.map(({ substance, grams }) => ({
    substance: substanceById(substance)!,
    grams: decimal(grams),
  }));
  const byLabel = ofParticles(
    new Map(label.map(({ particle, mmol }) => [particleById(particle)!, decimal(mmol)] as const)),
    LITRE,
  );
  const whole = recipe.map(weighed).reduce(plus, label.length > 0 ? byLabel : water(LITRE));
  return {
    id: data.id,
    name: data.name,
    group,
    perLitre: { ...whole, notStated: notStated.map((id) => particleById(id)!) },
    by: label.length > 0 ? 'label' : 'salts',
    recipe,
    stated: data.stated.map(({ observable, value, unit: of, source }) => ({
      observable,
      value: decimal(value),
      unit: of,
      source,
    })),
    difference: data.difference ?? '',
    note: data.note,
    sources: [...new Set([data.source, ...[...label, ...data.stated].map(({ source }) => source)])],
  };
}

function weighed({ substance, grams }: StockFluid['recipe'][number]): Contents {
  const { molarMass } = substance;
  return molarMass
    ? ofSolute(substance, { in: 'mmol', value: mmolOfGrams(grams, molarMass) }, ZERO)
    : ofSolute(substance, { in: 'g', value: grams }, ZERO);
}

const DATA = STOCK_DATA.flatMap(({ title, fluids }) => fluids.map((data) => ({ data, fluid: fluidOf(data, title) })));
const ALL: readonly StockFluid[] = DATA.map(({ fluid }) => fluid);

const BY_NAME: ReadonlyMap<string, StockFluid> = new Map(
  DATA.flatMap(({ data, fluid }) => [data.name, ...data.synonyms].map((text) => [plainKey(text), fluid] as const)),
);

/** Every stock fluid, group by group, in the order of the data. */
export function stockFluids(): readonly StockFluid[] {
  return ALL;
}

/** The stock fluid of that name or synonym; apostrophes do not count (`ringers lactate`). */
export function findStockFluid(key: string): StockFluid | null {
  return BY_NAME.get(plainKey(key)) ?? null;
}

/**
 * The stock fluid that is a solution of that substance in that strength (`albumin 5 %`), for a substance that is only to be
 * had so; null where there is none.
 */
export function stockSolution(substance: Substance, strength: Quantity): StockFluid | null {
  const { dimension, factor } = strength.unit;
  if (dimension.over !== 'mass' || dimension.under.join() !== 'volume') return null;
  const gramsPerLitre = strength.value.times(factor).times(LITRE);
  return (
    solutionsOf(substance).find(({ grams }) => atMost(grams, gramsPerLitre) && atMost(gramsPerLitre, grams))?.fluid ??
    null
  );
}

/** Strengths of those solutions, weakest first: `5 %`, `20 %`. */
export function stockStrengths(substance: Substance): readonly string[] {
  return solutionsOf(substance)
    .map(({ grams }) => grams.div(10))
    .sort((a, b) => a.cmp(b))
    .map((percent) => `${formatDecimal(percent)} ${unit('%').symbol}`);
}

function solutionsOf(substance: Substance): readonly { readonly fluid: StockFluid; readonly grams: Decimal }[] {
  if (!substance.solutionOnly) return [];
  return ALL.flatMap((fluid) =>
    fluid.recipe.filter((part) => part.substance === substance).map(({ grams }) => ({ fluid, grams })),
  );
}

/** Every name a stock fluid can be called by, as written in the data. */
export function stockNames(): readonly string[] {
  return DATA.flatMap(({ data }) => [data.name, ...data.synonyms]);
}
