/** Numbers and tables in the prose of a note that are bound to results of its ordinary blocks. */
import type { Link, MarkedTable, NoteText, SourceSpan } from '../markdown/note-text.ts';
import { holdsTable, isTableLine, tableLines } from '../markdown/table-text.ts';
import { keyOf, parseBlock } from '../notation/index.ts';
import type { Subject } from './answer.ts';
import { BoundBlock } from './bound-block.ts';
import type { LinkSlip } from './bound-faults.ts';
import { readBoundNumber } from './bound-number.ts';
import { type BoundTarget, boundTarget, writtenTarget } from './bound-target.ts';
import { Choices } from './choices.ts';
import { Asker } from './claims.ts';
import type { Located } from './faults.ts';
import type { Lookups } from './lookups.ts';
import type { BoundLink, BoundNumber, BoundTable, LeftAlone, WorkedComparison } from './model.ts';
import { ObservableReader } from './observable-reader.ts';
import { type Desk, Reporter } from './reporter.ts';
import { comparisonCells } from './result-text.ts';

export interface BoundProse {
  readonly numbers: BoundNumber[];
  readonly tables: BoundTable[];
  readonly leftAlone: LeftAlone[];
  readonly links: BoundLink[];
}

/** What a question was answered with; without an answer and without a fault it is withheld. */
interface Asked<T> {
  readonly answer: T | null;
  readonly faults: readonly Located[];
}

export class ProseBinder {
  /** Places whose faults are told: many links may refer to one definition. */
  private readonly told = new Set<string>();

  constructor(
    private readonly around: Lookups,
    private readonly desk: Desk,
    private readonly bound: BoundProse,
  ) {}

  bind(note: NoteText): void {
    const { links, tables, slips } = note.bound();
    for (const { at, problem } of slips) {
      const found = note.source.slice(at.start, at.end);
      this.broken(at, { problem, found, safe: found.trim().replace(/\s+/g, '-') });
    }
    for (const table of tables) this.table(table);
    for (const link of links) this.link(link);
  }

  private link(link: Link): void {
    const target = boundTarget(link);
    const { name, observable: result } = target;
    if (name.text === '' || result?.text === '') {
      this.broken(link.targetSpan, { problem: 'no-name', found: target.written });
      return;
    }
    this.bound.links.push({ at: link.span, name: name.span });
    const isNamed = this.around.scope.names.has(keyOf(name.text));
    const subject = this.ask((desk) => this.asker(name, desk).written(wholeOf(name)));
    if (!result) {
      if (!isNamed) this.tell(link, target, subject);
      return;
    }
    if (!subject.answer) {
      this.tell(link, target, subject);
      return;
    }
    const observable = this.ask((desk) => this.observable(result, subject.answer!, desk));
    if (!observable.answer) {
      this.tell(link, target, observable);
      return;
    }
    const asked = { link, target: target.written, subject: subject.answer, observable: observable.answer };
    const { number, faults } = readBoundNumber(asked, this.around.policy);
    if (number) this.number(number);
    else this.tell(link, target, { answer: null, faults });
  }

  private number(number: BoundNumber): void {
    this.bound.numbers.push(number);
    if (!number.stale) return;
    const { at, subject, observable, written, current, outcome, edit } = number;
    this.desk.faults.push({
      at,
      fault: { code: 'stale-number', subject: subject.name, observable, written, current, outcome, edit },
    });
  }

  private table(table: MarkedTable): void {
    const { opening: at, closing, between, lines } = table;
    const comparison = this.comparison(table);
    if (!comparison) return;
    const { head, rows } = comparisonCells(comparison, this.around.policy.reference);
    const other = lines.find((line) => !isTableLine(line));
    if (other !== undefined) {
      this.broken(at, { problem: 'other-text', found: other });
      return;
    }
    const stale = !holdsTable(lines, head, rows);
    const edit = { span: between, text: table.written(tableLines(head, rows)) };
    this.bound.tables.push({ at, closing, comparison, stale, edit });
    const fluids = comparison.rows.map(({ name }) => name);
    if (stale) this.desk.faults.push({ at, fault: { code: 'stale-table', fluids, edit } });
  }

  /** What an opening mark asks for; null where its fault is told, or any of its fluids is withheld. */
  private comparison({ opening: at, statement }: MarkedTable): WorkedComparison | null {
    const [node, ...more] = parseBlock(statement.text).statements;
    if (node?.kind !== 'compare' || more.length > 0) {
      this.broken(at, { problem: 'unread-mark', found: statement.text });
      return null;
    }
    const block = BoundBlock.at(statement.text, statement.start);
    const { answer, faults } = this.ask((desk) => this.asker(block, desk).compare(node));
    for (const located of faults) this.report(asBroken(located));
    if (faults.length > 0) return null;
    const isWhole = answer?.rows.length === node.fluids.length && answer.observables.length === node.observables.length;
    if (!isWhole) this.bound.leftAlone.push({ at, target: statement.text });
    return isWhole ? answer : null;
  }

  private asker(block: BoundBlock, desk: Desk): Asker {
    return new Asker(block, { ...this.around, choices: new Choices() }, desk);
  }

  private observable(words: BoundBlock, subject: Subject, desk: Desk) {
    const reader = new ObservableReader(words, new Reporter(words, desk), this.around);
    const span = wholeOf(words);
    const observable = reader.observable({ span, text: words.text, key: keyOf(words.text) });
    return observable && reader.suits(observable, span, subject) ? observable : null;
  }

  /** Wording is looked at in steps and orders alone; what is safe to read is not said of a target. */
  private ask<T>(question: (desk: Desk) => T | null): Asked<T> {
    const desk: Desk = { faults: [], mentions: [] };
    const answer = question(desk);
    this.desk.mentions.push(...desk.mentions);
    return { answer, faults: desk.faults.filter(({ fault }) => fault.code !== 'unsafe-abbreviation') };
  }

  /** Says why nothing is bound, or leaves the link alone where its result is withheld. */
  private tell(link: Link, { written, isPlaced }: BoundTarget, { faults }: Asked<unknown>): void {
    if (faults.length === 0) this.bound.leftAlone.push({ at: link.span, target: written });
    for (const located of faults) this.report(asBroken(located, isPlaced ? writtenTarget : null));
  }

  private broken(at: SourceSpan, slip: LinkSlip): void {
    this.report({ at, fault: { code: 'broken-link', slip } });
  }

  private report(located: Located): void {
    const key = `${located.at.start}-${located.at.end}-${located.fault.code}`;
    if (this.told.has(key)) return;
    this.told.add(key);
    this.desk.faults.push(located);
  }
}

function wholeOf({ text }: BoundBlock): { start: number; end: number } {
  return { start: 0, end: text.length };
}

/**
 * What is wrong with a name, a result or a quantity is the link's fault; whatever else is said keeps its own words.
 */
function asBroken({ at, fault }: Located, reading: Reading | null = (near) => near): Located {
  const slip = slipOf(fault, reading);
  return slip ? { at, fault: { code: 'broken-link', slip } } : { at, fault };
}

/** What is to stand in the place of a name; null where it is not written as it is read. */
type Reading = (near: string) => string;

function slipOf(fault: Located['fault'], reading: Reading | null): LinkSlip | null {
  switch (fault.code) {
    case 'unknown-name':
    case 'unknown-observable':
      return { problem: fault.code, found: fault.found, readings: reading ? fault.near.map(reading) : [] };
    case 'not-of-this': {
      const { observable, of, subject, is } = fault;
      return { problem: 'not-of-this', observable, of, subject, is };
    }
    case 'wrong-dimension': {
      const { found, of, got, fits } = fault;
      return { problem: 'wrong-dimension', found, of, got, fits };
    }
    default:
      return null;
  }
}
