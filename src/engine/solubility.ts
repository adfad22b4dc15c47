/** What cannot be dissolved in that much water. */

import { strengthOf } from './amounts.ts';
import type { Contents } from './contents.ts';
import { atMost, Decimal, decimal, sumOf, ZERO } from './decimal.ts';
import { LIMITS, sourceTitle } from './reference.ts';
import { remembered } from './remembered.ts';
import { gramsOfMmol, type Solubility, type Substance, substances, WATER_DENSITY } from './substances.ts';
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
const ROOM = decimal(20);
/** A figure for a temperature further away than this says nothing. */
const NEAR = decimal(5);

/** The strongest listed solution of each family, in mmol/mL. */
const STRONGEST: ReadonlyMap<string, Decimal> = strongest();

function strongest(): ReadonlyMap<string, Decimal> {
  const found = new Map<string, Decimal>();
  for (const substance of substances()) {
    for (const { value, unit: symbol } of substance.listedStrengths) {
      const reading = strengthOf({ value, unit: unit(symbol) }, substance, null, false);
      if (!reading.ok) continue;
      const { value: mmolPerMl } = reading.perMl;
      found.set(substance.family, Decimal.max(mmolPerMl, found.get(substance.family) ?? ZERO));
    }
  }
  return found;
}

/**
 * The first solute that is more than that much water dissolves at a temperature, or null. Each family is compared alone, as
 * its anhydrous mass against the water left after the apparent volumes of all solutes; the limit is widened by a tenth
 * (`solubilityMargin`), so that only the certain is said. A strength that a pharmacopoeia, handbook or label lists, and
 * whatever is weaker, is never impossible.
 */
export function overload(contents: Contents, celsius: Decimal = ROOM): Overload | null {
  const all = familiesOf(contents);
  const families = all.filter((held) => !listed(held, contents.volume));
  if (families.length === 0) return null;
  const waterGrams = contents.volume.minus(sumOf(all, ({ space }) => space)).times(WATER_DENSITY);
  if (waterGrams.lte(0)) return noWaterLeft(families, contents.volume);
  for (const { substance, grams } of families) {
    const limit = solubilityAt(substance, celsius);
    if (!limit || grams.isZero()) continue;
    const gramsPer100gWater = grams.times(HUNDRED).div(waterGrams);
    if (atMost(gramsPer100gWater, limit.gramsPer100gWater.times(MARGIN))) continue;
    return {
      substance,
      gramsPer100gWater,
      limit: limit.gramsPer100gWater,
      celsius: limit.celsius.toNumber(),
      source: sourceTitle(limit.source),
      reason: 'solubility',
    };
  }
  return null;
}

/** How much dissolves at that temperature: as listed, between two that are, or at one within 5 °C of it; null otherwise. */
export function solubilityAt({ solubility }: Substance, celsius: Decimal): Solubility | null {
  const below = solubility.findLast((known) => known.celsius.lte(celsius));
  const above = solubility.find((known) => known.celsius.gte(celsius));
  if (!below || !above) {
    const nearest = below ?? above;
    return nearest?.celsius.minus(celsius).abs().lte(NEAR) ? nearest : null;
  }
  if (below === above) return below;
  const share = celsius.minus(below.celsius).div(above.celsius.minus(below.celsius));
  const rise = above.gramsPer100gWater.minus(below.gramsPer100gWater);
  return { celsius, gramsPer100gWater: below.gramsPer100gWater.plus(rise.times(share)), source: below.source };
}

function noWaterLeft(families: readonly Held[], volume: Decimal): Overload | null {
  const bulky = families.filter(({ space }) => space.gt(0));
  if (bulky.length === 0) return null;
  const { substance, grams } = bulky.reduce((most, held) => (held.space.gt(most.space) ? held : most));
  return {
    substance,
    gramsPer100gWater: volume.isZero() ? ZERO : grams.times(HUNDRED).div(volume.times(WATER_DENSITY)),
    limit: HUNDRED.div(substance.anhydrous.apparentVolume),
    celsius: ROOM.toNumber(),
    source: sourceTitle(substance.sources[0]!),
    reason: 'more-solute-than-volume',
  };
}

/** Asked for room temperature and for the refrigerator. */
const familiesOf = remembered((contents: Contents): readonly Held[] => {
  const families = new Map<string, Held>();
  for (const [substance, mmol] of contents.solutes) {
    const { anhydrous, family } = substance;
    if (!anhydrous.molarMass || substance.id === 'water' || mmol.lte(0)) continue;
    const known = families.get(family);
    const own = gramsOfMmol(mmol, anhydrous.molarMass);
    const grams = known?.grams.plus(own) ?? own;
    families.set(family, {
      substance: known?.substance ?? substance,
      mmol: known?.mmol.plus(mmol) ?? mmol,
      grams,
      space: grams.times(anhydrous.apparentVolume),
    });
  }
  for (const [substance, grams] of contents.masses) {
    if (grams.lte(0)) continue;
    const space = grams.times(substance.apparentVolume);
    families.set(substance.family, { substance, mmol: ZERO, grams, space });
  }
  return [...families.values()];
});

/** Whether a family is no stronger than a strength listed for any of its forms. */
function listed({ substance, mmol }: Held, volume: Decimal): boolean {
  const limit = STRONGEST.get(substance.family);
  return substance.solutionOnly || (limit !== undefined && atMost(mmol, limit.times(volume)));
}
