/** Checks and results: claims, targets, what to show and compare, findings accepted. */
import type {
  AcceptNode,
  ClaimNode,
  CompareNode,
  FluidNode,
  NumberNode,
  QuantityNode,
  ShowNode,
  Span,
  SubjectNode,
  ToleranceNode,
  ValueNode,
  Words,
} from './ast.ts';
import { figureAmongWords } from './figure.ts';
import { readFluid, type Setting } from './fluid.ts';
import type { Line } from './line.ts';
import { nameRun } from './names.ts';
import { readTolerance, take } from './quantity.ts';

/** A word, a bare number or a quantity of a subject, with the index of its first token. */
type Piece =
  | { readonly kind: 'word'; readonly index: number }
  | { readonly kind: 'number'; readonly index: number; readonly number: NumberNode }
  | { readonly kind: 'quantity'; readonly index: number; readonly node: QuantityNode };

/** `claim`, `contains`, `target`; after the first word. */
export function readClaim(line: Line, kind: 'claim' | 'target'): ClaimNode | null {
  const keyword = line.last();
  const pieces = readPieces(line, (word) => word === 'within');
  if (pieces === null) return null;
  const split = splitValue(line, pieces, keyword);
  if (split === null) return null;
  let within: ToleranceNode | null = null;
  if (kind === 'claim' && line.eat('within')) {
    if (line.done) return line.fail('missing-amount', line.last());
    within = readTolerance(line);
    if (within === null) return null;
  }
  return { kind, ...split, within, ...line.place };
}

/** The value is the last piece: a quantity, a bare number (of a ratio) or a word (of a tonicity). */
function splitValue(
  line: Line,
  pieces: readonly Piece[],
  keyword: Span,
): { readonly subject: SubjectNode; readonly value: ValueNode } | null {
  const last = pieces.at(-1);
  if (last === undefined) return line.fail('missing-observable', keyword);
  const before = pieces.slice(0, -1);
  const span = line.spanOf(last.index, last.kind === 'quantity' ? line.at : last.index + 1);
  if (last.kind === 'word') {
    if (before.length === 0) return line.fail('missing-value', span);
    // a strength has words of its own between it and a tonicity: what stands right behind a number is no value
    if (before.at(-1)!.kind === 'quantity') return line.fail('unexpected-rest', span);
    if (before.at(-1)!.kind === 'number') {
      return line.stop({ code: 'unknown-unit', span, found: line.text(span), near: [] });
    }
  }
  if (!before.some(({ kind }) => kind === 'word')) return line.fail('missing-observable', span);
  if (last.kind === 'number') line.remarkOn(last.number);
  return { subject: subjectOf(line, before, last.index), value: claimedValue(line, last, span) };
}

function claimedValue(line: Line, piece: Piece, span: Span): ValueNode {
  switch (piece.kind) {
    case 'quantity':
      return piece.node;
    case 'number':
      return { kind: 'number', span, number: piece.number };
    case 'word':
      return { kind: 'word', span, words: line.words(piece.index, piece.index + 1) };
  }
}

/** Words, bare numbers and quantities up to a comma, a title, or a word that ends them. */
function readPieces(line: Line, ends: (word: string) => boolean): Piece[] | null {
  const pieces: Piece[] = [];
  for (let token = line.peek(); token !== undefined; token = line.peek()) {
    const index = line.at;
    if (token.kind === 'number') {
      const figure = figureAmongWords(line, index);
      if (figure.kind === 'fault') return line.stop(figure.fault);
      if (figure.kind === 'quantity') {
        pieces.push({ kind: 'quantity', index, node: take(line, figure.node, figure.next) });
        continue;
      }
      pieces.push({ kind: 'number', index, number: figure.number });
    } else if (token.word !== '' && !ends(token.word)) {
      pieces.push({ kind: 'word', index });
    } else break;
    line.at += 1;
  }
  return pieces;
}

/** Pieces as items: words and bare numbers run together. `end` is the index of the token after the last piece. */
function subjectOf(line: Line, pieces: readonly Piece[], end: number): SubjectNode {
  const items: (Words | QuantityNode)[] = [];
  let start = -1;
  pieces.forEach((piece, position) => {
    if (piece.kind === 'quantity') {
      items.push(piece.node);
      return;
    }
    if (pieces[position - 1]?.kind === 'quantity' || position === 0) start = piece.index;
    if (position + 1 === pieces.length || pieces[position + 1]!.kind === 'quantity') {
      items.push(line.words(start, piece.index + 1));
    }
  });
  return { span: line.spanOf(pieces[0]!.index, end), items };
}

/** `show [NAME] OBSERVABLE, …`; after the first word. */
export function readShow(line: Line): ShowNode | null {
  const items = readItems(line);
  return items && { kind: 'show', question: null, items, ...line.place };
}

/** What is asked for, item by item. */
export function readItems(line: Line): ShowNode['items'] | null {
  const first = readShown(line);
  if (first === null) return null;
  const items: [SubjectNode, ...SubjectNode[]] = [first];
  while (readSeparator(line)) {
    const item = readShown(line);
    if (item === null) return null;
    items.push(item);
  }
  return items;
}

function readShown(line: Line): SubjectNode | null {
  const before = line.last();
  const pieces = readPieces(line, (word) => word === 'and');
  if (pieces === null) return null;
  if (pieces.some(({ kind }) => kind === 'word')) return subjectOf(line, pieces, line.at);
  return line.fail('missing-observable', pieces.length === 0 ? before : line.spanOf(pieces[0]!.index, line.at));
}

/** `,`, `and`, `, and`. */
function readSeparator(line: Line): boolean {
  if (line.peek()?.kind !== 'comma') return line.eat('and');
  line.at += 1;
  line.eat('and');
  return true;
}

const COMPARED: Setting = { ends: (line) => line.word() === 'and' || line.word() === 'by', as: true };

/** `compare FLUID, … by OBSERVABLE, …`; after the first word. */
export function readCompare(line: Line): CompareNode | null {
  const first = readFluid(line, COMPARED, line.last());
  if (first === null) return null;
  const fluids: [FluidNode, ...FluidNode[]] = [first];
  while (readSeparator(line)) {
    const fluid = readFluid(line, COMPARED, line.last());
    if (fluid === null) return null;
    fluids.push(fluid);
  }
  if (!line.eat('by')) return line.fail('missing-by', line.done ? fluids.at(-1)!.span : line.here());
  const observable = readObservable(line);
  if (observable === null) return null;
  const observables: [Words, ...Words[]] = [observable];
  while (readSeparator(line)) {
    const another = readObservable(line);
    if (another === null) return null;
    observables.push(another);
  }
  return { kind: 'compare', fluids, observables, ...line.place };
}

function readObservable(line: Line): Words | null {
  const start = line.at;
  while (line.word() !== '' && line.word() !== 'and') line.at += 1;
  return line.at === start ? line.fail('missing-observable', line.last()) : line.words(start, line.at);
}

/** `accept CODE because "reason"`; after the first word. A missing reason leaves the line readable. */
export function readAccept(line: Line): AcceptNode | null {
  const code = nameRun(line);
  if (code === null) return line.fail('missing-name', line.last());
  while (!line.done && line.here().end <= code.span.end) line.at += 1;
  const because = line.eat('because');
  const title = because && line.peek()?.kind === 'string' ? line.title() : null;
  if (title !== null && title.text.trim() !== '') return { kind: 'accept', code, reason: title, ...line.place };
  const span = title?.span ?? (line.done ? line.last() : line.here());
  line.remarks.push({ code: 'accept-without-reason', span, of: code.text });
  line.at = line.tokens.length;
  return { kind: 'accept', code, reason: null, ...line.place };
}
