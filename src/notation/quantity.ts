/** Numbers with units where they must stand: amounts, counts, tolerances. */
import type { CountNode, NumberNode, QuantityNode, ToleranceNode, UnknownNode } from './ast.ts';
import { brokenRatio, type Follow, figureAt, splitNumber, unitAt, unitFault } from './figure.ts';
import { cover, type Line } from './line.ts';

/** Takes a quantity that was recognised. */
export function take(line: Line, node: QuantityNode, next: number): QuantityNode {
  line.remarkOn(node.number);
  if (node.tolerance !== null) line.remarkOn(node.tolerance.number);
  line.at = next;
  return node;
}

/** A number with a unit, at the cursor; anything else is a fault. */
export function readQuantity(line: Line, follow: Follow): QuantityNode | null {
  const token = line.peek();
  if (token?.kind !== 'number') return line.fail('missing-amount', line.here());
  const figure = figureAt(line, line.at);
  if (figure.kind === 'quantity') return take(line, figure.node, figure.next);
  if (figure.kind === 'fault') return line.stop(figure.fault);
  return line.stop(splitNumber(line, line.at, 'certain') ?? unitFault(line, figure.number.span, figure.next, follow));
}

/** A quantity to add, take out or wait for: not below zero. */
export function readAmount(line: Line, follow: Follow): QuantityNode | null {
  const quantity = readQuantity(line, follow);
  return quantity === null || notNegative(line, quantity.number) ? quantity : null;
}

/** An amount, or `? mL` to be solved for. */
export function readAmountOrUnknown(line: Line, follow: Follow): QuantityNode | UnknownNode | null {
  const mark = line.peek();
  if (mark?.kind !== 'question') return readAmount(line, follow);
  const unit = unitAt(line, line.at + 1);
  const start = { start: mark.start, end: mark.end };
  if (unit === null) return line.stop(unitFault(line, start, line.at + 1, follow));
  const broken = brokenRatio(line, unit.node, unit.next);
  if (broken !== null) return line.stop(broken);
  line.at = unit.next;
  return { kind: 'unknown', span: cover(start, unit.node.span), unit: unit.node };
}

export function atCount(line: Line): boolean {
  const kind = line.peek()?.kind;
  return (kind === 'number' || kind === 'question') && line.peek(1)?.kind === 'times';
}

/** `3 x`, `? ×` at the cursor. */
export function readCount(line: Line): CountNode | null {
  const span = line.spanOf(line.at, line.at + 2);
  let number: NumberNode | null = null;
  if (line.peek()!.kind === 'number') {
    const figure = figureAt(line, line.at);
    if (figure.kind === 'fault') return line.stop(figure.fault);
    number = figure.kind === 'bare' ? figure.number : figure.node.number;
    if (!notNegative(line, number)) return null;
    line.remarkOn(number);
  }
  line.at += 2;
  return { span, number };
}

/** Whether a number is not below zero; if it is, that is the line's fault. */
export function notNegative(line: Line, number: NumberNode): boolean {
  if (!number.value.isNegative() || number.value.isZero()) return true;
  line.fail('negative-amount', number.span);
  return false;
}

/** The quantity after `within`; a `±` before it is taken as said twice. */
export function readTolerance(line: Line): ToleranceNode | null {
  if (line.peek()?.kind === 'plus-minus') line.at += 1;
  const quantity = readAmount(line, 'nothing');
  if (quantity === null) return null;
  const { span, number, unit, tolerance } = quantity;
  return tolerance === null ? { span, number, unit } : line.fail('unexpected-rest', tolerance.span);
}
