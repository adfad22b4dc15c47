/** What can stand out in an order, or in all the orders of a patient: data only, the words stand in `src/checks`. */
import type { Decimal, Limit, Onset } from '../engine/index.ts';

/**
 * What was not written, so that the strictest reading was taken: of whom the limits are, by which way it is given, into
 * which vein.
 */
export type Unsaid = 'age' | 'route' | 'which-vein';

/** A number held against a limit. */
export interface Held {
  /** In the unit of the limit. */
  readonly found: Decimal;
  readonly limit: Limit;
  readonly unsaid: readonly Unsaid[];
}

/** What is too strong to be given undiluted. */
export type Concentrate = 'potassium' | 'sodium chloride' | 'magnesium sulfate' | 'phosphate';

/** A change of serum sodium that is predicted: from and to in h, by in mmol/L, above zero for a fall as well. */
export interface Change {
  readonly from: Decimal;
  readonly to: Decimal;
  readonly by: Decimal;
}

/** Why the risk of osmotic demyelination counts as high. */
export type DemyelinationRisk = 'declared' | 'sodium' | 'potassium';

interface CourseFault extends Held {
  /** The steepest predicted change within `hours`. */
  readonly change: Change;
  readonly hours: Decimal;
  /** h at which the limit is passed. */
  readonly crossed: Decimal | null;
  /** mmol/L at the beginning. */
  readonly serumSodium: Decimal;
  readonly onset: Onset | null;
  /** Whether urine or another loss is written, and so counted. */
  readonly losses: boolean;
}

export type OrderFault =
  | ({ readonly code: 'undiluted-concentrate'; readonly of: Concentrate } & Held)
  /** `water`: no particle at all that red cells keep out; `complete` and `begins`: below the point at which lysis is, or does. */
  | ({ readonly code: 'haemolysis'; readonly reaches: 'water' | 'complete' | 'begins' } & Held)
  | ({ readonly code: 'hypertonic-peripheral' } & Held)
  | ({ readonly code: 'potassium-concentration' } & Held)
  | ({
      readonly code: 'potassium-rate';
      /** mmol/h. */
      readonly perHour: Decimal;
      readonly monitored: boolean;
      /** The fluids that run at the same time; one where it is by itself too fast. */
      readonly fluids: readonly string[];
    } & Held)
  /** `found` is the serum potassium. */
  | ({ readonly code: 'potassium-while-high' } & Held)
  | ({
      readonly code: 'hypotonic-to-low-sodium';
      /** mL in 24 h, against the serum sodium in mmol/L. */
      readonly freeWater: Decimal;
      readonly serumSodium: Decimal;
    } & Held)
  | ({ readonly code: 'glucose-rate'; readonly low: boolean; readonly fluids: readonly string[] } & Held)
  | ({
      readonly code: 'hypotonic-maintenance';
      /** mOsm/L that stay effective in the body. */
      readonly effective: Decimal;
      /** mL/h: as ordered, and by 4-2-1 for this weight. */
      readonly rate: Decimal;
      readonly maintenance: Decimal;
    } & Held)
  | {
      readonly code: 'sodium-chloride-load';
      readonly sodium: Held | null;
      readonly chloride: Held | null;
    }
  | {
      readonly code: 'calcium-ceftriaxone';
      /** Null where the age is not written. */
      readonly contraindicated: boolean | null;
      /** Both in one fluid. */
      readonly mixed: boolean;
      readonly calciumIn: string;
      readonly limit: Limit;
    }
  | ({ readonly code: 'electrolyte-rate'; readonly of: 'magnesium' | 'phosphate' | 'calcium' } & Held)
  | ({ readonly code: 'sodium-rise'; readonly risk: DemyelinationRisk | null } & CourseFault)
  | ({ readonly code: 'sodium-fall'; readonly child: boolean } & CourseFault)
  /** Amount in mL, rate in mL/h, time in h, as written. */
  | {
      readonly code: 'rate-mismatch';
      readonly amount: Decimal;
      readonly rate: Decimal;
      readonly duration: Decimal;
    }
  | { readonly code: 'dose-names-no-solute'; readonly found: string; readonly solutes: readonly string[] }
  | { readonly code: 'unknown-route'; readonly found: string; readonly near: readonly string[] }
  /** `patient` is empty where the order names none; `wanted` is a phrase: `the rate in mL/kg/h`. */
  | {
      readonly code: 'missing-patient-value';
      readonly value: string;
      readonly patient: string;
      readonly wanted: string;
    }
  /** An amount of a solute that is in no volume. */
  | { readonly code: 'volume-basis-missing'; readonly found: string };
