/** One note as the reports of the command line take it: decimal strings, zero-based lines, UTF-16 columns. */

import { type Findings, findingsOf } from '../checks/findings.ts';
import {
  type Base,
  type Contents,
  effectiveOsmolarity,
  exactText,
  osmolarity,
  type Reference,
  type Result,
  results,
  type Tonicity,
  tonicity,
  unit,
} from '../engine/index.ts';
import { readNote } from '../markdown/index.ts';
import { parseBlock } from '../notation/index.ts';
import {
  DEFAULT_POLICY,
  NO_NOTES,
  type Policy,
  rangeOf,
  type Solved,
  type UsedNotes,
  type WorkedMixture,
  workNote,
} from '../note/index.ts';
import type { Tree } from '../text/tree.ts';
import { comparisonTable } from './cards/results-text.ts';
import { measuredText, solvedText } from './cards/solved.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { Lines } from './lines.ts';
import { type OrderReport, orderReport } from './orders.ts';
import { mixtureSentence, shownText } from './results.ts';
import type { Diagnostic, Severity } from './types.ts';
import { type NumberReport, numberReport } from './updates.ts';

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
  readonly range: { readonly start: Position; readonly end: Position };
}

export interface AcceptedReport {
  readonly code: string;
  /** Of the finding. */
  readonly line: number;
  readonly reason: string;
}

export interface NoteReport {
  readonly mixtures: readonly MixtureReport[];
  readonly orders: readonly OrderReport[];
  /** In the text of the note, bound to results; what is withheld is left out. */
  readonly numbers: readonly NumberReport[];
  /** Findings that the note accepts, with the reasons. */
  readonly accepted: readonly AcceptedReport[];
  /** What `show` lines answer, in the order of the note. */
  readonly shown: readonly { readonly line: number; readonly text: string }[];
  readonly comparisons: readonly { readonly line: number; readonly table: Tree }[];
  readonly diagnostics: readonly DiagnosticReport[];
  readonly lines: Lines;
}

/** What an amount is told in to other programs. */
const BASE_UNITS: Partial<Readonly<Record<Base, string>>> = {
  volume: 'mL',
  mass: 'g',
  amount: 'mmol',
  charge: 'mEq',
  osmoles: 'mOsm',
};

/** Total: any text gives a report. */
export function reportOf(source: string, policy: Policy = DEFAULT_POLICY, used: UsedNotes = NO_NOTES): NoteReport {
  const model = workNote(readNote(source), parseBlock, policy, used);
  const { reference } = policy;
  const lines = new Lines(source);
  const findings = findingsOf(model);
  return {
    // A stock is worked out like a mixture, and is none.
    mixtures: model.mixtures
      .filter(({ entity }) => entity.kind === 'mixture')
      .map((mixture) => mixtureReport(mixture, lines, reference)),
    orders: model.orders.map((order) => orderReport(order, model, lines)),
    numbers: model.numbers.map((number) => numberReport(number, lines)),
    accepted: acceptedReports(findings, lines),
    shown: model.shows.map((show) => ({
      line: lines.at(show.block.toSource(show.span).start).line,
      text: `${show.shown[0]!.subject}: ${shownText(show, reference)}`,
    })),
    comparisons: model.comparisons.map((comparison) => ({
      line: lines.at(comparison.block.toSource(comparison.node.span).start).line,
      table: comparisonTable(comparison, reference),
    })),
    diagnostics: diagnosticReports(diagnosticsOf(model, findings), lines),
    lines,
  };
}

/** A policy file by itself: what is wrong with it, and nothing else. */
export function policyReportOf(source: string, diagnostics: readonly Diagnostic[]): NoteReport {
  const lines = new Lines(source);
  return {
    mixtures: [],
    orders: [],
    numbers: [],
    accepted: [],
    shown: [],
    comparisons: [],
    diagnostics: diagnosticReports(diagnostics, lines),
    lines,
  };
}

function mixtureReport(mixture: WorkedMixture, lines: Lines, reference: Reference): MixtureReport {
  const { entity, contents, name, state } = mixture;
  const found: Record<string, Value> = {};
  if (contents) {
    for (const result of results(contents, reference)) {
      found[result.observable.id] = valueReport(result, contents, mixture, reference);
    }
  }
  return {
    name,
    title: entity.title?.text ?? null,
    line: lines.at(entity.block.toSource(entity.header).start).line,
    state,
    volume: found.volume ?? null,
    results: found,
    tonicity: contents
      ? {
          bag: tonicity(osmolarity(contents), reference),
          body: tonicity(effectiveOsmolarity(contents), reference),
        }
      : null,
    unknowns: mixture.solved.map((solved) => unknownReport(solved, mixture, lines)),
    sentence: mixtureSentence(mixture, lines, reference),
  };
}

function valueReport(
  { observable, value, unit: symbol }: Result,
  contents: Contents,
  { extremes }: WorkedMixture,
  reference: Reference,
): Value {
  const range = rangeOf({ contents, extremes }, observable, unit(symbol), reference);
  const plain = { value: exactText(value), unit: symbol };
  return range ? { ...plain, from: exactText(range[0]), to: exactText(range[1]) } : plain;
}

function unknownReport(solved: Solved, { entity }: WorkedMixture, lines: Lines): UnknownReport {
  const { span, unit, value } = solved;
  const measured = measuredText(solved);
  return {
    line: lines.at(entity.block.toSource(span).start).line,
    value: exactText(unit ? value.times(unit.factor) : value),
    unit: unit ? (BASE_UNITS[unit.dimension.over] ?? unit.symbol) : '1',
    sentence: measured ? `${solvedText(solved)}. ${measured}` : solvedText(solved),
  };
}

function acceptedReports({ accepted }: Findings, lines: Lines): AcceptedReport[] {
  return accepted.map(({ finding, reason }) => ({
    code: finding.code,
    line: lines.at(finding.at.start).line,
    reason,
  }));
}

function diagnosticReports(diagnostics: readonly Diagnostic[], lines: Lines): DiagnosticReport[] {
  return diagnostics.map(({ code, severity, message, parts, span }) => ({
    code,
    severity,
    message,
    parts,
    range: { start: lines.at(span.start), end: lines.at(span.end) },
  }));
}
