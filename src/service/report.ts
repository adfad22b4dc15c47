/** One note as the reports of the command line take it: decimal strings, zero-based lines, UTF-16 columns. */
import {
  type Base,
  type Contents,
  DEFAULT_REFERENCE,
  effectiveOsmolarity,
  exactText,
  osmolarity,
  type Result,
  results,
  type Tonicity,
  tonicity,
  unit,
} from '../engine/index.ts';
import { readNote } from '../markdown/index.ts';
import { rangeOf, type Solved, type WorkedMixture, type WorkedNoteModel, workNote } from '../note/index.ts';
import type { Tree } from '../text/tree.ts';
import { comparisonTable } from './cards/results-text.ts';
import { measuredText, solvedText } from './cards/solved.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { Lines } from './lines.ts';
import { mixtureSentence, shownText } from './results.ts';
import type { Severity } from './types.ts';

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

export interface NoteReport {
  readonly mixtures: readonly MixtureReport[];
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
export function reportOf(source: string): NoteReport {
  const model = workNote(readNote(source));
  const lines = new Lines(source);
  return {
    // A stock is worked out like a mixture, and is none.
    mixtures: model.mixtures
      .filter(({ entity }) => entity.kind === 'mixture')
      .map((mixture) => mixtureReport(mixture, lines)),
    shown: model.shows.map((show) => ({
      line: lines.at(show.block.toSource(show.span).start).line,
      text: `${show.shown[0]!.subject}: ${shownText(show, DEFAULT_REFERENCE)}`,
    })),
    comparisons: model.comparisons.map((comparison) => ({
      line: lines.at(comparison.block.toSource(comparison.node.span).start).line,
      table: comparisonTable(comparison, DEFAULT_REFERENCE),
    })),
    diagnostics: diagnosticReports(model, lines),
    lines,
  };
}

function mixtureReport(mixture: WorkedMixture, lines: Lines): MixtureReport {
  const { entity, contents, name, state } = mixture;
  const found: Record<string, Value> = {};
  if (contents) {
    for (const result of results(contents, DEFAULT_REFERENCE)) {
      found[result.observable.id] = valueReport(result, contents, mixture);
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
          bag: tonicity(osmolarity(contents), DEFAULT_REFERENCE),
          body: tonicity(effectiveOsmolarity(contents), DEFAULT_REFERENCE),
        }
      : null,
    unknowns: mixture.solved.map((solved) => unknownReport(solved, mixture, lines)),
    sentence: mixtureSentence(mixture, lines, DEFAULT_REFERENCE),
  };
}

function valueReport(
  { observable, value, unit: symbol }: Result,
  contents: Contents,
  { extremes }: WorkedMixture,
): Value {
  const range = rangeOf({ contents, extremes }, observable, unit(symbol), DEFAULT_REFERENCE);
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

function diagnosticReports(model: WorkedNoteModel, lines: Lines): DiagnosticReport[] {
  return diagnosticsOf(model).map(({ code, severity, message, parts, span }) => ({
    code,
    severity,
    message,
    parts,
    range: { start: lines.at(span.start), end: lines.at(span.end) },
  }));
}
