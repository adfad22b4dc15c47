/** One note as the reports of the command line take it: decimal strings, zero-based lines, UTF-16 columns. */

import { findingsOf } from '../checks/findings.ts';
import {
  type Base,
  type Contents,
  effectiveOsmolarity,
  exactText,
  osmolarity,
  type Reference,
  type Result,
  results,
  tonicity,
  unit,
} from '../engine/index.ts';

import { mayHoldBlocks, readNote } from '../markdown/index.ts';
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import { parseBlock, type Span } from '../notation/index.ts';

import {
  DEFAULT_POLICY,
  NO_NOTES,
  type Policy,
  rangeOf,
  type Solved,
  type UsedNotes,
  type WorkedMixture,
  type WorkedNoteModel,
  workNote,
} from '../note/index.ts';
import { comparisonTable } from './cards/results-text.ts';
import { measuredText, solvedText } from './cards/solved.ts';

import { whatIfTable } from './cards/what-if-card.ts';
import { acceptedOf, diagnosticsOf } from './diagnostics.ts';
import { excerptOf } from './excerpt.ts';

import { Lines } from './lines.ts';
import { orderReport } from './orders.ts';
import {
  type DiagnosticReport,
  type MixtureReport,
  NOTHING,
  type NoteReport,
  type Range,
  type UnknownReport,
  type Value,
} from './report-model.ts';
import { mixtureSentence, shownText } from './results.ts';
import type { Diagnostic } from './types.ts';
import { numberReport } from './updates.ts';

/** What an amount is told in to other programs. */
const BASE_UNITS: Partial<Readonly<Record<Base, string>>> = {
  volume: 'mL',
  mass: 'g',
  amount: 'mmol',
  charge: 'mEq',
  osmoles: 'mOsm',
};

/**
 * Total: any text gives a report. Without `results` only what is found and counted is told, which is less work: no
 * mixtures, orders, numbers and answers.
 */
export function reportOf(
  source: string,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
  { results = true }: { readonly results?: boolean } = {},
): NoteReport {
  if (!mayHoldBlocks(source)) return NOTHING;
  const model = workNote(readNote(source), parseBlock, policy, used);
  const lines = new Lines(source);
  const findings = findingsOf(model);
  // A stock is worked out like a mixture, and is none.
  const mixtures = model.mixtures.filter(({ entity }) => entity.kind === 'mixture');
  return {
    ...NOTHING,
    counts: { mixtures: mixtures.length, orders: model.orders.length },
    accepted: acceptedOf(model, findings).map(({ diagnostic, reason }) => ({
      ...diagnosticReport(diagnostic, lines),
      reason,
    })),
    diagnostics: diagnosticsOf(model, findings).map((diagnostic) => diagnosticReport(diagnostic, lines)),
    ...(results ? resultsReport(model, mixtures, lines) : {}),
  };
}

function resultsReport(
  model: WorkedNoteModel,
  mixtures: readonly WorkedMixture[],
  lines: Lines,
): Omit<NoteReport, 'counts' | 'accepted' | 'diagnostics'> {
  const { reference } = model.policy;
  return {
    mixtures: mixtures.map((mixture) => mixtureReport(mixture, lines, reference)),
    orders: model.orders.map((order) => orderReport(order, model, lines)),
    numbers: model.numbers.map((number) => numberReport(number, lines)),
    shown: model.shows.map((show) => ({
      line: lines.at(show.block.toSource(show.span).start).line,
      text: `${show.question === null ? '' : `‘${show.question}’ `}${show.shown[0]!.subject}: ${shownText(show, reference)}`,
    })),
    tables: tablesOf(model, lines),
  };
}

/** A policy file by itself: what is wrong with it, and nothing else. */
export function policyReportOf(source: string, diagnostics: readonly Diagnostic[]): NoteReport {
  const lines = new Lines(source);
  return { ...NOTHING, diagnostics: diagnostics.map((diagnostic) => diagnosticReport(diagnostic, lines)) };
}

function tablesOf({ comparisons, whatIfs, policy }: WorkedNoteModel, lines: Lines): NoteReport['tables'] {
  const lineOf = ({ block, node }: { readonly block: Block; readonly node: { readonly span: Span } }) =>
    lines.at(block.toSource(node.span).start).line;
  return [
    ...comparisons.map((one) => ({ line: lineOf(one), table: comparisonTable(one, policy.reference) })),
    ...whatIfs.map((one) => ({ line: lineOf(one), table: whatIfTable(one, policy.reference) })),
  ].sort((a, b) => a.line - b.line);
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

function diagnosticReport(
  { code, severity, message, parts, span, related }: Diagnostic,
  lines: Lines,
): DiagnosticReport {
  const range = rangeIn(lines, span);
  return {
    code,
    severity,
    message,
    parts,
    range,
    excerpt: excerptOf(range, lines),
    related: related.map((other) => ({ message: other.message, range: rangeIn(lines, other.span) })),
  };
}

function rangeIn(lines: Lines, { start, end }: SourceSpan): Range {
  return { start: lines.at(start), end: lines.at(end) };
}
