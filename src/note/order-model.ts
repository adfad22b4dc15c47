/** Patients and orders, worked out. Immutable. Times in h, volumes in mL, rates in mL/h. */
import type { Contents, Decimal, Ion, PatientFacts, Quantity, Route, Substance } from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { GiveNode } from '../notation/ast.ts';
import type { Assumption, Entity, WorkedMixture } from './model.ts';

export interface WorkedPatient {
  readonly entity: Entity;
  readonly name: string;
  /** `incomplete`: a line of it could not be read; nothing is worked out with it. */
  readonly state: 'complete' | 'incomplete';
  readonly cause: SourceSpan | null;
  /** All null when `incomplete`. */
  readonly facts: PatientFacts;
}

/** One stretch of giving: `3 x 100 mL … every 10 min` has three. */
export interface Run {
  readonly start: Decimal;
  /** Equal to `start` where it is given at once. */
  readonly end: Decimal;
  /** What it brings, all of it. */
  readonly contents: Contents;
}

/** A dose that names what it counts: `at 1 g/h of magnesium sulfate`. */
export interface Dose {
  readonly written: Quantity;
  /** What is counted: a solute, or one of its ions. */
  readonly of: string;
  readonly substance: Substance | null;
  readonly ion: Ion | null;
  /** What one mL of the fluid holds of it, in the base unit of `written`'s mass, amount, charge or activity. */
  readonly perMl: Decimal;
}

export interface WorkedOrder {
  readonly entity: Entity;
  readonly node: GiveNode;
  /** Empty for an order without a name. */
  readonly name: string;
  readonly fluid: string;
  /** The note's own mixture that is given, if it is one. */
  readonly mixture: WorkedMixture | null;
  readonly patient: WorkedPatient | null;
  /** null: none is written. */
  readonly route: Route | null;
  readonly monitored: boolean;
  /** `incomplete`: a line could not be read or bound, or its fluid or patient could not. All below is then null or empty. */
  readonly state: 'complete' | 'incomplete';
  readonly cause: SourceSpan | null;
  /** What 1 mL holds. */
  readonly perMl: Contents | null;
  /** What is given in all; of an order without an end, in its first 24 h. */
  readonly contents: Contents | null;
  /** While it runs; null where it is given at once, or no time is written. */
  readonly rate: Decimal | null;
  /** Of one run; null where it is given at once, and for an order without an end. */
  readonly duration: Decimal | null;
  /** Only a rate is written, of a fluid that has no recipe: it runs until it is stopped. */
  readonly endless: boolean;
  /** In time. An order without an end has one run, of 24 h. */
  readonly runs: readonly Run[];
  /** Recipes or containers that it takes; null for a fluid without a recipe. */
  readonly bags: Decimal | null;
  readonly dose: Dose | null;
  /** Drops in 1 mL of the set it runs through, if written. */
  readonly dropsPerMl: Decimal | null;
  readonly assumptions: readonly Assumption[];
}
