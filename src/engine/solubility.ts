/** What cannot be dissolved in that much water. */

import { strengthOf } from './amounts.ts';
import type { Contents } from './contents.ts';
import { atMost, Decimal, decimal, ZERO } from './decimal.ts';
import { LIMITS, sourceTitle } from './reference.ts';
import { gramsOfMmol, type Substance, substanceById, substances, WATER_DENSITY } from './substances.ts';
import { unit } from './units.ts';

/** A solute that cannot all be dissolved. */
export interface Overload {
  readonly substance: Substance;
  /**
   * g of the anhydrous substance in 100 g of the water that is left beside all solutes. Where solutes leave no water: g in
   * 100 g, had the whole volume been water.
   */
  readonly gramsPer100gWater: Decimal;
  /** g of the anhydrous substance that saturate 100 g of water. Where solutes leave no water: g that fill 100 mL alone. */
  readonly limit: Decimal;
  readonly celsius: number;
  /** Title of the source of the limit, or `from memory`. */
  readonly source: string;
  readonly reason: 'solubility' | 'more-solute-than-volume';
}

/** Everything of one family, as its anhydrous substance. */
interface Held {
  readonly substance: Substance;
  readonly mmol: Decimal;
  readonly grams: Decimal;
  /** mL. */
  readonly space: Decimal;
}

const MARGIN = decimal(LIMITS.solubilityMargin.value);
const HUNDRED = decimal(100);

/** The strongest listed solution of each family, in mmol/mL. */
const STRONGEST: ReadonlyMap<string, Decimal> = strongest();

function strongest(): ReadonlyMap<string, Decimal> {
  const found = new Map<string, Decimal>();
  for (const substance of substances()) {
    for (const { value, unit: symbol } of substance.listedStrengths) {
      const reading = strengthOf({ value, unit: unit(symbol) }, substance, null, false);
      if (!reading.ok) continue;
      const { mmolPerMl } = reading;
      found.set(substance.family, Decimal.max(mmolPerMl, found.get(substance.family) ?? ZERO));
    }
  }
  return found;
}

/**
 * The first solute that is more than that much water dissolves at 20 °C, or null. Each family is compared alone, as its
 * anhydrous mass against the water left after the apparent volumes of all solutes; the limit is widened by a tenth
 * (`solubilityMargin`), so that only the certain is said. A strength that a pharmacopoeia, handbook or label lists, and
 * whatever is weaker, is never impossible.
 */
export function overload(contents: Contents): Overload | null {
  const families = familiesOf(contents).filter((held) => !listed(held, contents.volume));
  const space = familiesOf(contents).reduce((sum, held) => sum.plus(held.space), ZERO);
  const waterGrams = contents.volume.minus(space).times(WATER_DENSITY);
  if (families.length > 0 && waterGrams.lte(0)) return noWaterLeft(families, contents.volume);
  for (const { substance, grams } of families) {
    const { solubility } = substance;
    if (!solubility || grams.isZero()) continue;
    const gramsPer100gWater = grams.times(HUNDRED).div(waterGrams);
    if (atMost(gramsPer100gWater, solubility.gramsPer100gWater.times(MARGIN))) continue;
    return {
      substance,
      gramsPer100gWater,
      limit: solubility.gramsPer100gWater,
      celsius: solubility.celsius,
      source: sourceTitle(solubility.source),
      reason: 'solubility',
    };
  }
  return null;
}

function noWaterLeft(families: readonly Held[], volume: Decimal): Overload {
  const { substance, grams } = families.reduce((most, held) => (held.space.gt(most.space) ? held : most));
  return {
    substance,
    gramsPer100gWater: volume.isZero() ? ZERO : grams.times(HUNDRED).div(volume.times(WATER_DENSITY)),
    limit: HUNDRED.div(substance.anhydrous.apparentVolume),
    celsius: 20,
    source: sourceTitle(substance.sources[0]!),
    reason: 'more-solute-than-volume',
  };
}

function familiesOf(contents: Contents): readonly Held[] {
  const families = new Map<string, Held>();
  for (const [id, mmol] of contents.solutes) {
    const substance = substanceById(id);
    if (!substance || substance.gives.length === 0 || mmol.lte(0)) continue;
    const known = families.get(substance.family);
    const grams = gramsOfMmol(mmol, substance.anhydrous.molarMass).plus(known?.grams ?? ZERO);
    families.set(substance.family, {
      substance: known?.substance ?? substance,
      mmol: mmol.plus(known?.mmol ?? ZERO),
      grams,
      space: grams.times(substance.anhydrous.apparentVolume),
    });
  }
  return [...families.values()];
}

/** Whether a family is no stronger than a strength listed for any of its forms. */
function listed({ substance, mmol }: Held, volume: Decimal): boolean {
  const limit = STRONGEST.get(substance.family);
  return limit !== undefined && atMost(mmol, limit.times(volume));
}
