/** Fluids: words with a strength before or after them, dissolved in one another. */
import { isStrength } from '../engine/units.ts';
import type { FluidNode, PartNode, QuantityNode, Span, Words } from './ast.ts';
import { figureAmongWords } from './figure.ts';
import { cover, type Line } from './line.ts';
import { notNegative, take } from './quantity.ts';

/** Where a fluid stands: which words end it there, and whether `as` names what carries an ion. */
export interface Setting {
  ends(line: Line): boolean;
  readonly as: boolean;
}

/** A fluid by itself, to the end of its text. */
export const ALONE: Setting = { ends: () => false, as: true };

/** In a step: before `to 500 mL` and `by volume`. */
export const IN_STEP: Setting = {
  ends: (line) => makeUpWords(line, line.at) > 0 || atByVolume(line),
  as: true,
};

const DISSOLVED = new Set(['in', 'with']);

/** How many tokens from `index` on say `to`, `up to`, `to make`, `q.s. to`; 0 for none. */
export function makeUpWords(line: Line, index: number): number {
  const word = (ahead: number) => line.tokens[index + ahead]?.word;
  const to = (ahead: number) => (word(ahead) !== 'to' ? 0 : word(ahead + 1) === 'make' ? 2 : 1);
  if (word(0) === 'up') return to(1) === 0 ? 0 : 1 + to(1);
  return /^q\.?s\.?$/.test(word(0) ?? '') ? 1 + to(1) : to(0);
}

export function atByVolume(line: Line): boolean {
  return line.word() === 'by' && line.word(1) === 'volume';
}

/**
 * Parts joined by `in` or `with`. `before` is what a missing fluid is reported on. Stops before an amount, so also
 * before `in 250 mL …`, the vehicle of a step.
 */
export function readFluid(line: Line, setting: Setting, before: Span): FluidNode | null {
  const first = readPart(line, setting, before);
  if (first === null) return null;
  const parts: [PartNode, ...PartNode[]] = [first];
  while (DISSOLVED.has(line.word()) && !atVehicle(line)) {
    line.at += 1;
    const part = readPart(line, setting, line.last());
    if (part === null) return null;
    parts.push(part);
  }
  return { span: cover(first.span, parts.at(-1)!.span), parts };
}

/** `in` and an amount. */
export function atVehicle(line: Line): boolean {
  return line.word() === 'in' && amountAt(line, line.at + 1) !== null;
}

/** The quantity at `index` when it is one and no strength. */
export function amountAt(line: Line, index: number): QuantityNode | null {
  if (line.tokens[index]?.kind !== 'number') return null;
  const figure = figureAmongWords(line, index);
  return figure.kind === 'quantity' && !isStrength(figure.node.unit.unit) ? figure.node : null;
}

function readPart(line: Line, setting: Setting, before: Span): PartNode | null {
  const start = line.at;
  let ofSolution = readOf(line);
  let strength: QuantityNode | null = null;
  if (line.peek()?.kind === 'number') {
    const amount = amountAt(line, line.at);
    if (amount !== null) return line.fail('two-amounts', amount.span);
    const figure = figureAmongWords(line, line.at);
    if (figure.kind === 'fault') return line.stop(figure.fault);
    if (figure.kind === 'quantity') strength = take(line, figure.node, figure.next);
  }
  if (strength !== null && readOf(line)) ofSolution = true;
  const elemental = line.eat('elemental');
  const words = readWords(line, setting, line.peek()?.kind === 'string' ? line.here() : before);
  if (words === null) return null;

  let as: Words | null = null;
  for (;;) {
    if (line.peek()?.kind === 'number') {
      // readWords went past every number but a quantity
      const figure = figureAmongWords(line, line.at);
      if (figure.kind !== 'quantity' || !isStrength(figure.node.unit.unit)) break;
      if (strength !== null) return line.fail('two-strengths', figure.node.span);
      strength = take(line, figure.node, figure.next);
    } else if (setting.as && as === null && line.eat('as')) {
      as = readWords(line, setting, line.last());
      if (as === null) return null;
    } else break;
  }
  if (strength !== null && !notNegative(line, strength.number)) return null;
  return { span: line.spanOf(start, line.at), strength, ofSolution, elemental, words, as };
}

/** `of solution` says that the amount weighs the solution; `of` alone (`500 mL of water`) says nothing. */
function readOf(line: Line): boolean {
  if (!line.eat('of')) return false;
  const solution = line.eat('solution');
  if (solution) line.eat('of');
  return solution;
}

/** Words and bare numbers up to a quantity, a joining word, or what ends the fluid in its setting. */
function readWords(line: Line, setting: Setting, before: Span): Words | null {
  const start = line.at;
  for (let token = line.peek(); token !== undefined; token = line.peek()) {
    if (token.kind === 'number') {
      const figure = figureAmongWords(line, line.at);
      if (figure.kind === 'fault') return line.stop(figure.fault);
      if (figure.kind === 'quantity') break;
    } else {
      if (token.word === '') break;
      if (DISSOLVED.has(token.word) || (setting.as && token.word === 'as') || setting.ends(line)) break;
    }
    line.at += 1;
  }
  return line.at === start ? line.fail('missing-fluid', before) : line.words(start, line.at);
}
