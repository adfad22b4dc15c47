/**
 * From the text of a block to its statements, line by line, by shape alone.
 *
 * Total and linear: any text gives a value; a line that cannot be read becomes an `unread` node with one fault, and
 * disturbs no other line.
 */
import type { Quantity } from '../engine/quantity.ts';
import type { BlockSyntax, FluidNode, NotationFault, Span, Statement, UnreadNode } from './ast.ts';
import { readAccept, readClaim, readCompare, readShow } from './claims.ts';
import { ALONE, readFluid } from './fluid.ts';
import { orderName, readGive } from './give.ts';
import { readHeader, readSubstance, readUse } from './headers.ts';
import { readAsk, readWhatIf } from './lessons.ts';
import { lexLine, type Token } from './lexer.ts';
import { LIMITS } from './limits.ts';
import { Line } from './line.ts';
import { linesOf, trimmed } from './lines.ts';
import { nameRun } from './names.ts';
import { normalise } from './normalise.ts';
import { readGives, readWordsFirst } from './properties.ts';
import { readQuantity } from './quantity.ts';
import { type StatementKeyword, statementKeyword } from './reserved.ts';
import { readCounted, readExchange, readWithdraw } from './steps.ts';

/** Reads a block's text; spans are offsets into it. Never throws. */
export function parseBlock(text: string): BlockSyntax {
  const normal = normalise(text);
  const statements: Statement[] = [];
  const faults: NotationFault[] = [];
  let number = 0;
  for (const place of linesOf(normal)) {
    const span = trimmed(normal, place);
    if (span !== null) {
      const read = number < LIMITS.lines ? readLine(text, normal, span, number) : beyondLast(span, number);
      if (read !== null) {
        statements.push(read.statement);
        faults.push(...read.faults);
      }
      if (number >= LIMITS.lines) break;
    }
    number += 1;
  }
  return { statements, faults };
}

/**
 * Reads a fluid alone: what a shorthand stands for (`dextrose 5% in water`), or a part of a line. Null when the text,
 * or the part `within` it, is no fluid; spans are offsets into the text.
 */
export function parseFluid(text: string, within: Span = { start: 0, end: text.length }): FluidNode | null {
  const normal = normalise(text);
  const { start, end } = within;
  const tokens = end - start > LIMITS.lineLength ? [] : lexLine(normal, start, end);
  if (tokens.length === 0 || tokens.length > LIMITS.wordsInLine) return null;
  const line = new Line(text, tokens, { span: within, line: 0 });
  const fluid = readFluid(line, ALONE, line.here());
  return line.done ? fluid : null;
}

/** A number with its unit alone, without a tolerance; the fault is null for no text, and for one that is too long. */
export function parseQuantity(text: string): ParsedQuantity {
  const tokens = text.length > LIMITS.lineLength ? [] : lexLine(normalise(text), 0, text.length);
  if (tokens.length === 0 || tokens.length > LIMITS.wordsInLine) return { ok: false, fault: null };
  const line = new Line(text, tokens, { span: { start: 0, end: text.length }, line: 0 });
  const read = readQuantity(line, 'nothing');
  if (!read) return { ok: false, fault: line.fault };
  if (!line.done || read.tolerance) return { ok: false, fault: line.syntax('unexpected-rest', read.span) };
  return { ok: true, quantity: { value: read.number.value, unit: read.unit.unit } };
}

export type ParsedQuantity =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly fault: NotationFault | null };

interface Read {
  readonly statement: Statement;
  readonly faults: readonly NotationFault[];
}

/** What a line that is not blank says; null for a comment. */
function readLine(text: string, normal: string, span: Span, number: number): Read | null {
  if (normal[span.start] === '#') return null;
  const limit = span.start + LIMITS.lineLength;
  const tokens = withoutAdd(lexLine(normal, span.start, Math.min(span.end, limit)));
  const whole = span.end > limit ? span : { start: span.start, end: tokens.at(-1)!.end };
  const line = new Line(text, tokens, { span: whole, line: number });
  const fault = boundFault(tokens, span) ?? openTitle(line);
  if (fault !== null) line.stop(fault);
  const statement = fault === null ? readStatement(line) : null;
  if (statement !== null && !line.done) line.fail('unexpected-rest', line.rest());
  return statement === null || line.fault !== null ? unread(line) : { statement, faults: line.remarks };
}

/** `add` before an amount says no more than the amount does. */
function withoutAdd(tokens: readonly Token[]): readonly Token[] {
  const amountFollows = tokens[1]?.kind === 'number' || tokens[1]?.kind === 'question';
  return tokens[0]?.word === 'add' && amountFollows ? tokens.slice(1) : tokens;
}

/** What a line has too much of: characters, or words. */
function boundFault(tokens: readonly Token[], span: Span): NotationFault | null {
  const end = span.start + LIMITS.lineLength;
  if (span.end > end) {
    return { code: 'over-limit', span: { start: end, end: span.end }, what: 'line-length', limit: LIMITS.lineLength };
  }
  const excess = tokens.filter(({ kind }) => kind !== 'comma')[LIMITS.wordsInLine];
  if (excess === undefined) return null;
  const at = { start: excess.start, end: excess.end };
  return { code: 'over-limit', span: at, what: 'words-in-line', limit: LIMITS.wordsInLine };
}

function openTitle(line: Line): NotationFault | null {
  const title = line.tokens.find(({ closed }) => !closed);
  return title === undefined ? null : line.syntax('unclosed-string', { start: title.start, end: title.end });
}

/** The first line over the bound stands for all that follow. */
function beyondLast(span: Span, number: number): Read {
  const statement: UnreadNode = { kind: 'unread', span, line: number, keyword: null, name: null };
  return { statement, faults: [{ code: 'over-limit', span, what: 'lines', limit: LIMITS.lines }] };
}

function unread(line: Line): Read {
  const keyword = statementKeyword(line.tokens[0]!.word);
  const statement: UnreadNode = { kind: 'unread', keyword, name: unreadName(line, keyword), ...line.place };
  return { statement, faults: [line.fault!] };
}

function unreadName(line: Line, keyword: StatementKeyword | null): UnreadNode['name'] {
  line.at = 1;
  switch (keyword) {
    case 'give':
      return orderName(line);
    case 'mixture':
    case 'stock':
    case 'patient':
      return nameRun(line);
    case 'substance': {
      const end = line.tokens.findIndex(({ kind }) => kind === 'string');
      const to = end < 0 ? line.tokens.length : end;
      return to > 1 ? line.words(1, to) : null;
    }
    default:
      return null;
  }
}

function readStatement(line: Line): Statement | null {
  const first = line.tokens[0]!;
  if (first.kind === 'number' || first.kind === 'question') return readCounted(line);
  const keyword = statementKeyword(first.word);
  if (keyword === null) {
    return first.word === '' ? line.fail('unknown-statement', line.here()) : readWordsFirst(line);
  }
  line.at = 1;
  switch (keyword) {
    case 'use':
      return readUse(line);
    case 'mixture':
    case 'stock':
    case 'patient':
      return readHeader(line, keyword);
    case 'substance':
      return readSubstance(line);
    case 'give':
      return readGive(line);
    case 'gives':
      return readGives(line);
    case 'withdraw':
      return readWithdraw(line);
    case 'exchange':
      return readExchange(line);
    case 'claim':
    case 'target':
      return readClaim(line, keyword);
    case 'show':
      return readShow(line);
    case 'ask':
      return readAsk(line);
    case 'what-if':
      return readWhatIf(line);
    case 'compare':
      return readCompare(line);
    case 'accept':
      return readAccept(line);
  }
}
