/** The arithmetic: what every other room asks. Pure, total, exact; it imports nothing but decimal.js and `shared/`. */
export { type AmountFault, type AmountReading, amountOf, type StrengthReading, strengthOf } from './amounts.ts';
export {
  bicarbonateDeficit,
  bicarbonateSpace,
  deficitByBase,
  NEUTRAL_STRONG_ION_DIFFERENCE,
} from './bodies/acid-base.ts';
export { ageGroup } from './bodies/ages.ts';
export { type BodyWater, bodyWater } from './bodies/body-water.ts';
export { type Compartments, compartments, compartmentsBeforeUse } from './bodies/compartments.ts';
export type { AgeGroup, Loss, Onset, PatientFacts, Serum, Sex } from './bodies/facts.ts';
export { adultMaintenance, burnFluid, maintenance, type Range, usualIntake } from './bodies/maintenance.ts';
export { calculatedOsmolality, correctedSodium, effectiveOsmolality } from './bodies/serum-osmolality.ts';
export {
  type Flow,
  freeWaterAgainst,
  freeWaterDeficit,
  isonatric,
  type PredictedSodium,
  predictedSodium,
  SODIUM_ERROR,
  waterBindingCations,
} from './bodies/serum-sodium.ts';
export { type Change, crossing, steepest } from './bodies/sodium-change.ts';
export { type CoursePoint, type Gain, LONGEST_COURSE, type SteadyLoss, sodiumCourse } from './bodies/sodium-course.ts';
export {
  type Amount,
  type Contents,
  dryVolume,
  EMPTY,
  held,
  massOf,
  ofParticles,
  ofSolute,
  oneMl,
  plus,
  times,
  water,
} from './contents.ts';
export { atMost, Decimal, decimal, manyTimes, nearlyEqual, ONE, sumOf, ZERO } from './decimal.ts';
export {
  type Defined,
  type DefinitionFault,
  defineParticle,
  defineSubstance,
  type ParticleDefinition,
  type SubstanceDefinition,
} from './define.ts';
export { exactText, formatDecimal, formatQuantity } from './format.ts';
export { type Composition, molarMass, parseFormula } from './formula.ts';
export { findIon, type Ion, ionOf } from './ions.ts';
export { dissociationFactor, type FreezingFigure } from './isotonicity.ts';
export { type Measurable, measurable } from './measurable.ts';
export { type Measured, type MeasuredRatio, measure, measureRatio, type Unmeasured } from './measure.ts';
export { type Mixed, type MixFault, type MixStep, mix, type Stage } from './mixture.ts';
export { nearAmong, nearNames } from './near-names.ts';
export {
  findObservable,
  fixedObservables,
  ionObservable,
  type Observable,
  type ObservableKind,
  type SubjectKind,
  soluteObservable,
} from './observables.ts';
export { defaultLimits, type Limit, type Limits, limitIds, type Region } from './order-limits.ts';
export { type Body, type Particle, particleById, particles } from './particles.ts';
export { PLASMA } from './plasma.ts';
export { inUnit, type Quantity } from './quantity.ts';
export { sourceTitle } from './reference.ts';
export { remembered } from './remembered.ts';
export { type Result, results, resultWorking } from './results.ts';
export { findRoute, type Into, type Route, routeNames, routes } from './routes.ts';
export { findShorthand, type Shorthand } from './shorthand.ts';
export { type Slip, type SlipContext, slip } from './slips.ts';
export { type Overload, overload, solubilityAt } from './solubility.ts';
export { findSolute, formMatters, type Pharmacopoeia, type SoluteReading, soluteNames } from './solutes.ts';
export { closed, contentsAt, type OpenStep, type Residual, type Solution, solve, type UnknownStep } from './solve.ts';
export { findStockFluid, type Stated, type StockFluid, stockFluids, stockSolution } from './stock-fluids.ts';
export {
  type Given,
  mmolOfGrams,
  osmolesPerMole,
  type Solubility,
  type Substance,
  substanceById,
  substances,
} from './substances.ts';
export {
  amountOfIon,
  amountOfParticle,
  anionSum,
  cationSum,
  DEFAULT_REFERENCE,
  effectiveOsmolarity,
  freeWaterHolds,
  freeWaterPerLitre,
  osmolarity,
  type Reference,
  type Tonicity,
  tonicity,
} from './totals.ts';
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
export { cancelling, type WorkingStep, workingText } from './working.ts';
