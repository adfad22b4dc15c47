/** What is known of a patient. Nothing here is guessed: what was not written is null. */
import type { Decimal } from '../decimal.ts';
import type { Ion } from '../ions.ts';

export type Sex = 'female' | 'male';
export type Onset = 'acute' | 'chronic' | 'unknown';

/** Something that leaves the body steadily: urine, a drain. */
export interface Loss {
  readonly name: string;
  /** mL/h. */
  readonly rate: Decimal;
  /** mmol/L of each ion that is told. */
  readonly perLitre: ReadonlyMap<Ion, Decimal>;
}

/** Laboratory values in mmol/L. */
export interface Serum {
  readonly sodium: Decimal | null;
  readonly potassium: Decimal | null;
  readonly glucose: Decimal | null;
  readonly urea: Decimal | null;
  readonly bicarbonate: Decimal | null;
}

export interface PatientFacts {
  /** kg. */
  readonly weight: Decimal | null;
  /** kg. */
  readonly birthWeight: Decimal | null;
  /** cm. */
  readonly height: Decimal | null;
  /** Years. */
  readonly age: Decimal | null;
  /** Weeks at birth. */
  readonly gestation: Decimal | null;
  readonly sex: Sex | null;
  /** L, where the author writes it instead of leaving it to an estimate. */
  readonly bodyWater: Decimal | null;
  readonly serum: Serum;
  /** mEq/L below normal, as a blood gas reports it. */
  readonly baseDeficit: Decimal | null;
  /** How the disorder of sodium came about. */
  readonly onset: Onset | null;
  /** Declared at high risk of osmotic demyelination. */
  readonly demyelinationRisk: boolean;
  /** Percent of body surface. */
  readonly burn: Decimal | null;
  readonly losses: readonly Loss[];
}

/** Below 28 days, below 1 year, below 18 years, from then on. */
export type AgeGroup = 'neonate' | 'infant' | 'child' | 'adult';
