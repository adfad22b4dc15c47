/** What is usually given in a day, by weight: to hold an order against, not to prescribe by. */
import { Decimal, decimal, ZERO } from '../decimal.ts';
import { BODIES, sourceTitle } from '../reference.ts';
import type { AgeGroup } from './facts.ts';

/** Both ends of what a source gives. */
export interface Range {
  readonly least: Decimal;
  readonly most: Decimal;
}

const { burn: BURN, maintenance: CONSTANTS } = BODIES;
const BANDS: readonly Decimal[] = CONSTANTS.bands.map(decimal);
const PER_DAY: readonly Decimal[] = CONSTANTS.perDay.rates.map(decimal);
const PER_HOUR: readonly Decimal[] = CONSTANTS.perHour.rates.map(decimal);
/** mL of water that stand for 100 kcal. */
const WATER_OF_ENERGY = decimal(100);

/**
 * Water of a child: mL/h by 4, 2 and 1 mL/kg, and mL/day by 100, 50 and 20 mL/kg, of the first ten, the next ten and every
 * further kilogram. The two are not 24-fold of each other. Not for the first 28 days.
 */
export function maintenance(weight: Decimal): { readonly perHour: Decimal; readonly perDay: Decimal } {
  return { perHour: banded(weight, PER_HOUR), perDay: banded(weight, PER_DAY) };
}

function banded(weight: Decimal, rates: readonly Decimal[]): Decimal {
  let from: Decimal = ZERO;
  let total: Decimal = ZERO;
  for (const [index, rate] of rates.entries()) {
    const to = Decimal.min(weight, BANDS[index] ?? weight);
    if (to.gt(from)) total = total.plus(to.minus(from).times(rate));
    from = BANDS[index] ?? weight;
  }
  return total;
}

/** Routine maintenance of an adult, of one day. */
export function adultMaintenance(weight: Decimal): {
  /** mL. */
  readonly water: Range;
  /** mmol of each of sodium, potassium and chloride. */
  readonly electrolytes: Decimal;
  /** g, whatever the weight. */
  readonly glucose: Range;
  /** Its title, for showing. */
  readonly source: string;
} {
  const kilograms = Decimal.max(weight, ZERO);
  return {
    water: {
      least: kilograms.times(CONSTANTS.adultLeastWater.value),
      most: kilograms.times(CONSTANTS.adultMostWater.value),
    },
    electrolytes: kilograms.times(CONSTANTS.adultElectrolytes.value),
    glucose: { least: decimal(CONSTANTS.adultLeastGlucose.value), most: decimal(CONSTANTS.adultMostGlucose.value) },
    source: sourceTitle(CONSTANTS.adultElectrolytes.source),
  };
}

/** mL by which the first 24 h after a burn of that percent of body surface usually begin, and the half of it for the first 8 h. */
export function burnFluid(
  weight: Decimal,
  percent: Decimal,
): { readonly first24Hours: Range; readonly first8Hours: Range; readonly source: string } {
  const burnt = Decimal.max(weight, ZERO).times(Decimal.max(percent, ZERO));
  const first24Hours = { least: burnt.times(BURN.least.value), most: burnt.times(BURN.most.value) };
  return {
    first24Hours,
    first8Hours: {
      least: first24Hours.least.times(BURN.firstShare.value),
      most: first24Hours.most.times(BURN.firstShare.value),
    },
    source: sourceTitle(BURN.least.source),
  };
}

/**
 * mmol/kg of each ion that is usually given in a day; null for the first 28 days, for which no source is at hand. A child's
 * go by 100 mL of water, and so fall per kg as the weight (kg) rises; without a weight those of the first ten kg are told.
 */
export function usualIntake(
  group: AgeGroup,
  weight: Decimal | null = null,
): {
  readonly sodium: Decimal;
  readonly potassium: Decimal;
  readonly chloride: Decimal;
  /** Its title, for showing. */
  readonly source: string;
} | null {
  switch (group) {
    case 'neonate':
      return null;
    case 'adult': {
      const each = decimal(CONSTANTS.adultElectrolytes.value);
      const source = sourceTitle(CONSTANTS.adultElectrolytes.source);
      return { sodium: each, potassium: each, chloride: each, source };
    }
    default: {
      const kilograms = weight?.gt(0) ? weight : BANDS[0]!;
      const hundreds = maintenance(kilograms).perDay.div(WATER_OF_ENERGY).div(kilograms);
      return {
        sodium: hundreds.times(CONSTANTS.childSodium.value),
        potassium: hundreds.times(CONSTANTS.childPotassium.value),
        chloride: hundreds.times(CONSTANTS.childChloride.value),
        source: sourceTitle(CONSTANTS.childSodium.source),
      };
    }
  }
}
