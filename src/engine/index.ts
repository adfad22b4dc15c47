/** The arithmetic: what every other room asks. Pure, total, exact; it imports nothing but decimal.js and `shared/`. */
export { type AmountFault, type AmountReading, amountOf, type StrengthReading, strengthOf } from './amounts.ts';
export { type Contents, dryVolume, EMPTY, ofSolute, plus, times, water } from './contents.ts';
export { atMost, Decimal, decimal, nearlyEqual, ONE, ZERO } from './decimal.ts';
export { exactText, formatDecimal, formatQuantity } from './format.ts';
export { type Composition, molarMass, parseFormula } from './formula.ts';
export { type Measurable, measurable } from './measurable.ts';
export {
  amountOfParticle,
  DEFAULT_REFERENCE,
  effectiveOsmolarity,
  freeWaterPerLitre,
  type Measured,
  measure,
  osmolarity,
  type Reference,
  type Result,
  results,
  resultWorking,
  type Tonicity,
  tonicity,
} from './measure.ts';
export { type Mixed, type MixFault, type MixStep, mix, type Stage } from './mixture.ts';
export { nearNames } from './near-names.ts';
export { findObservable, fixedObservables, type Observable, type ObservableKind } from './observables.ts';
export { type Density, density } from './osmolality/density.ts';
export { type Osmolality, osmolality } from './osmolality/osmolality.ts';
export { findIon, type Particle, particleById, particles } from './particles.ts';
export { inUnit, type Quantity } from './quantity.ts';
export { sourceTitle } from './reference.ts';
export { findShorthand, type Shorthand } from './shorthand.ts';
export { type Slip, type SlipContext, slip } from './slips.ts';
export { type Overload, overload } from './solubility.ts';
export { closed, contentsAt, type OpenStep, type Residual, type Solution, solve, type UnknownStep } from './solve.ts';
export { findStockFluid, type StockFluid, stockFluids } from './stock-fluids.ts';
export {
  findSolute,
  osmolesPerMole,
  type Pharmacopoeia,
  type SoluteReading,
  type Substance,
  substanceById,
  substances,
} from './substances.ts';
export {
  type Base,
  type Dimension,
  dimensionWords,
  findUnit,
  isMass,
  isRate,
  isStrength,
  isTime,
  isVolume,
  nearUnits,
  sameDimension,
  UNIT_SYMBOLS,
  type Unit,
  unit,
} from './units.ts';
export { type WorkingStep, workingText } from './working.ts';
