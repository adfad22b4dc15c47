/** Steps of a mixture: add, make up, withdraw, exchange. */
import { isStrength } from '../engine/units.ts';
import type {
  AdditionNode,
  ByVolumeNode,
  CountNode,
  ExchangeNode,
  MakeUpNode,
  QuantityNode,
  Span,
  UnknownNode,
  WithdrawNode,
} from './ast.ts';
import { figureAmongWords } from './figure.ts';
import { amountAt, atByVolume, atVehicle, IN_STEP, makeUpWords, readFluid } from './fluid.ts';
import { cover, type Line } from './line.ts';
import { atCount, readAmount, readAmountOrUnknown, readCount } from './quantity.ts';

/** A line whose first token is a number or `?`. */
export function readCounted(line: Line): AdditionNode | ByVolumeNode | MakeUpNode | null {
  if (atCount(line)) {
    const count = readCount(line);
    if (count === null) return null;
    if (line.done) return line.fail('missing-amount', line.last());
    // 2 x gastric, 2 x 0.9% sodium chloride: whole containers
    if (!atAmount(line)) return readAddition(line, count, null, count.span);
    const amount = readAmountOrUnknown(line, 'words');
    return amount === null ? null : readAdded(line, count, amount);
  }
  if (!atAmount(line)) return readStrengthFirst(line);
  const amount = readAmountOrUnknown(line, 'words');
  return amount === null ? null : readAdded(line, null, amount);
}

/** `FLUID to 500 mL`. */
export function readMakeUp(line: Line): MakeUpNode | null {
  const fluid = readFluid(line, IN_STEP, line.here());
  if (fluid === null) return null;
  const words = makeUpWords(line, line.at);
  if (words === 0) return line.fail('unexpected-rest', line.rest());
  line.at += words;
  if (line.done) return line.fail('missing-volume-after-to', line.last());
  const to = readAmount(line, 'nothing');
  return to === null ? null : { kind: 'make-up', fluid, to, ...line.place };
}

/** After `withdraw` or `discard`. */
export function readWithdraw(line: Line): WithdrawNode | null {
  if (line.done) return line.fail('missing-amount', line.last());
  const amount = readAmountOrUnknown(line, 'nothing');
  return amount === null ? null : { kind: 'withdraw', amount, ...line.place };
}

/** After `exchange`. */
export function readExchange(line: Line): ExchangeNode | null {
  if (line.done) return line.fail('missing-amount', line.last());
  const amount = readAmountOrUnknown(line, 'words');
  if (amount === null) return null;
  if (!line.eat('for')) return line.fail('missing-for', line.done ? amount.span : line.here());
  const fluid = readFluid(line, IN_STEP, line.last());
  return fluid === null ? null : { kind: 'exchange', amount, fluid, ...line.place };
}

/** Whether the number or `?` at the cursor begins an amount rather than a fluid's strength or words. */
function atAmount(line: Line): boolean {
  const token = line.peek()!;
  if (token.kind !== 'number') return token.kind === 'question';
  const figure = figureAmongWords(line, line.at);
  return figure.kind !== 'quantity' || !isStrength(figure.node.unit.unit);
}

/** `20 mmol/L potassium chloride to 1 L`; without the `to` there is no saying how much. */
function readStrengthFirst(line: Line): MakeUpNode | null {
  const strength = figureAmongWords(line, line.at);
  for (let index = line.at; index < line.tokens.length; index += 1) {
    if (makeUpWords(line, index) > 0) return readMakeUp(line);
  }
  return line.fail('missing-amount', strength.kind === 'quantity' ? strength.node.span : line.here());
}

function readAdded(
  line: Line,
  count: CountNode | null,
  amount: QuantityNode | UnknownNode,
): AdditionNode | ByVolumeNode | null {
  if (line.peek()?.kind === 'times') return line.fail('unexpected-rest', line.rest());
  if (atByVolume(line)) return line.fail('missing-title', line.here());
  if (line.peek()?.kind === 'string') return readByVolume(line, count, amount);
  return readAddition(line, count, amount, amount.span);
}

function readByVolume(line: Line, count: CountNode | null, volume: QuantityNode | UnknownNode): ByVolumeNode | null {
  const label = line.title();
  if (!line.eat('by', 'volume')) return line.fail('missing-fluid', label.span);
  if (volume.kind === 'unknown') return line.fail('missing-amount', volume.span);
  if (count !== null) return line.fail('unexpected-rest', count.span);
  return { kind: 'by-volume', volume, label, ...line.place };
}

function readAddition(
  line: Line,
  count: CountNode | null,
  amount: QuantityNode | UnknownNode | null,
  before: Span,
): AdditionNode | null {
  const fluid = readFluid(line, IN_STEP, before);
  if (fluid === null) return null;
  if (atByVolume(line)) return line.fail('missing-title', fluid.span);
  if (!atVehicle(line)) {
    const second = amountAt(line, line.at);
    if (second !== null) return line.fail('two-amounts', second.span);
    return { kind: 'addition', count, amount, fluid, vehicle: null, ...line.place };
  }
  line.at += 1;
  const volume = readAmount(line, 'words');
  if (volume === null) return null;
  const into = readFluid(line, IN_STEP, volume.span);
  if (into === null) return null;
  if (atVehicle(line)) return line.fail('two-amounts', cover(line.here(), amountAt(line, line.at + 1)!.span));
  return { kind: 'addition', count, amount, fluid, vehicle: { volume, fluid: into }, ...line.place };
}
