/** What reports of the command line hold, and that of a note in which there is nothing. */
import type { Tonicity } from '../engine/index.ts';
import type { WorkedMixture } from '../note/index.ts';
import type { Tree } from '../text/tree.ts';
import type { Excerpt } from './excerpt.ts';
import type { OrderReport } from './orders.ts';
import type { Severity } from './types.ts';
import type { NumberReport } from './updates.ts';

export interface Value {
  readonly value: string;
  readonly unit: string;
  /** The ends of its range, where tolerances leave one. */
  readonly from?: string;
  readonly to?: string;
}

export interface MixtureReport {
  readonly name: string;
  readonly title: string | null;
  readonly line: number;
  readonly state: WorkedMixture['state'];
  /** null, and no results, unless `state` is `complete`. */
  readonly volume: Value | null;
  readonly results: Readonly<Record<string, Value>>;
  readonly tonicity: { readonly bag: Tonicity; readonly body: Tonicity } | null;
  readonly unknowns: readonly UnknownReport[];
  /** `= 1010 mL, sodium 152 mmol/L, isotonic`. */
  readonly sentence: string;
}

/** A solved amount: volumes in mL, masses in g, amounts in mmol or mEq, counts in 1. */
export interface UnknownReport {
  readonly line: number;
  readonly value: string;
  readonly unit: string;
  /** `64.11 mL`, and what can be measured of it. */
  readonly sentence: string;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface DiagnosticReport {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly parts: {
    readonly read: string;
    readonly why: string;
    readonly mend: string;
    readonly source: string | null;
  };
  readonly range: Range;
  readonly excerpt: Excerpt;
  /** Other places that matter to it. */
  readonly related: readonly { readonly message: string; readonly range: Range }[];
}

/** A finding that the note accepts. */
export interface AcceptedReport extends DiagnosticReport {
  readonly reason: string;
}

/** Plain data, which goes from one thread to another. */
export interface NoteReport {
  readonly counts: { readonly mixtures: number; readonly orders: number };
  readonly mixtures: readonly MixtureReport[];
  readonly orders: readonly OrderReport[];
  /** In the text of the note, bound to results; what is withheld is left out. */
  readonly numbers: readonly NumberReport[];
  /** Findings that the note accepts, with the reasons. */
  readonly accepted: readonly AcceptedReport[];
  /** What `show` lines answer, in the order of the note. */
  readonly shown: readonly { readonly line: number; readonly text: string }[];
  /** Of `compare` and `what if` lines, in the order of the note. */
  readonly tables: readonly { readonly line: number; readonly table: Tree }[];
  readonly diagnostics: readonly DiagnosticReport[];
}

/** Of a note without blocks. */
export const NOTHING: NoteReport = {
  counts: { mixtures: 0, orders: 0 },
  mixtures: [],
  orders: [],
  numbers: [],
  accepted: [],
  shown: [],
  tables: [],
  diagnostics: [],
};
