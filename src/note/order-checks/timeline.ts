/** What orders do together in time: the most in any stretch of some hours, and the most at once. Times in h. */
import { type Decimal, ZERO } from '../../engine/index.ts';
import type { Run, WorkedOrder } from '../order-model.ts';

/** An amount that arrives evenly from `start` to `end`, or all at once where they are equal. */
export interface Piece {
  readonly order: WorkedOrder;
  readonly start: Decimal;
  readonly end: Decimal;
  readonly amount: Decimal;
}

export interface Stretch {
  readonly from: Decimal;
  readonly to: Decimal;
  readonly total: Decimal;
}

export function pieces(orders: readonly WorkedOrder[], amountOf: (run: Run) => Decimal): readonly Piece[] {
  return orders.flatMap((order) =>
    order.runs.map((run) => ({ order, start: run.start, end: run.end, amount: amountOf(run) })),
  );
}

/** The stretch of that many hours, its end left out, in which most arrives; null without pieces. */
export function mostWithin(hours: Decimal, all: readonly Piece[]): Stretch | null {
  const points = pointsOf(all);
  let most: Stretch | null = null;
  for (const { at } of points) {
    for (const from of [at, at.minus(hours)]) {
      const to = from.plus(hours);
      const total = before(points, to).minus(before(points, from));
      if (!most || total.gt(most.total)) most = { from, to, total };
    }
  }
  return most;
}

/** The order that brings most within a stretch. */
export function mainOrder(all: readonly Piece[], { from, to }: Stretch): WorkedOrder | null {
  const shares = new Map<WorkedOrder, Decimal>();
  for (const piece of all) shares.set(piece.order, (shares.get(piece.order) ?? ZERO).plus(within(piece, from, to)));
  let main: WorkedOrder | null = null;
  for (const [order, share] of shares) if (!main || share.gt(shares.get(main)!)) main = order;
  return main;
}

function within({ start, end, amount }: Piece, from: Decimal, to: Decimal): Decimal {
  if (start.eq(end)) return start.gte(from) && start.lt(to) ? amount : ZERO;
  const [first, last] = [start.gt(from) ? start : from, end.lt(to) ? end : to];
  return first.lt(last) ? amount.times(last.minus(first)).div(end.minus(start)) : ZERO;
}

/** A moment at which something begins, ends or is given at once. */
interface Point {
  readonly at: Decimal;
  /** All that has arrived, what is given at that moment included. */
  readonly total: Decimal;
  /** Per hour from here on. */
  readonly rate: Decimal;
}

function pointsOf(all: readonly Piece[]): readonly Point[] {
  const events = all
    .flatMap(({ start, end, amount }) => {
      if (start.eq(end)) return [{ at: start, jump: amount, rate: ZERO }];
      const rate = amount.div(end.minus(start));
      return [
        { at: start, jump: ZERO, rate },
        { at: end, jump: ZERO, rate: rate.neg() },
      ];
    })
    .sort((a, b) => a.at.cmp(b.at));
  const points: Point[] = [];
  for (const { at, jump, rate } of events) {
    const last = points[points.length - 1];
    const total = last ? last.total.plus(last.rate.times(at.minus(last.at))) : ZERO;
    const point = { at, total: total.plus(jump), rate: (last?.rate ?? ZERO).plus(rate) };
    if (last?.at.eq(at)) points[points.length - 1] = point;
    else points.push(point);
  }
  return points;
}

/** All that has arrived before a time. */
function before(points: readonly Point[], time: Decimal): Decimal {
  let [low, high] = [0, points.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (points[middle]!.at.lt(time)) low = middle + 1;
    else high = middle;
  }
  const point = points[low - 1];
  return point ? point.total.plus(point.rate.times(time.minus(point.at))) : ZERO;
}

/** Something that runs at a rate from `start` to `end`. */
export interface Stream {
  readonly order: WorkedOrder;
  readonly start: Decimal;
  readonly end: Decimal;
  readonly rate: Decimal;
}

/** What an order's runs bring per hour while it runs; nothing where no rate is written or worked out. */
export function streams(order: WorkedOrder, perMl: Decimal): readonly Stream[] {
  const { rate, runs } = order;
  return rate ? runs.map(({ start, end }) => ({ order, start, end, rate: rate.times(perMl) })) : [];
}

/** The highest rate of all streams together, and the orders that run then. One that ends when another begins does not count. */
export function mostAtOnce(
  all: readonly Stream[],
): { readonly rate: Decimal; readonly orders: readonly WorkedOrder[] } | null {
  const events = all
    .flatMap(({ start, end, rate }) => [
      { at: start, rate },
      { at: end, rate: rate.neg() },
    ])
    .sort((a, b) => a.at.cmp(b.at) || a.rate.cmp(b.rate));
  let sum = ZERO;
  let most: { readonly rate: Decimal; readonly at: Decimal } | null = null;
  for (const { at, rate } of events) {
    sum = sum.plus(rate);
    if (!most || sum.gt(most.rate)) most = { rate: sum, at };
  }
  if (!most) return null;
  const { at, rate } = most;
  const then = all.filter(({ start, end }) => start.lte(at) && at.lt(end));
  return { rate, orders: [...new Set(then.map(({ order }) => order))] };
}
