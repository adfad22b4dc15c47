import type { IonColumns, IonShare, IonStacks } from '../../text/figures.ts';
import { area, hatching, line, path, tidy } from './drawing.ts';
import { fitted, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, LABEL_SIZE, MARGIN, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';

const HEIGHT = 248;
const TITLES = 20;
const TOP = 34;
const FOOT = 206;
const KINDS = FOOT + 14;
const SUMS = KINDS + 16;
const COLUMN = 21;
/** Between the middles of the two pairs of columns. */
const PAIRS = [FIGURE_WIDTH * 0.25, FIGURE_WIDTH * 0.75] as const;
const ROOM = (FIGURE_WIDTH - 2 * MARGIN) / 2 - 8;
/** Two lines, the ion and how much of it. */
const NAMED = 25;
/** From a column to the names beside it. */
const LED = 9;
/** As many as can be named beside one column. */
const MOST_NAMED = 4;
const NAME_SIZE = 10;

/** Cations and anions as two facing stacks in mEq/L, beside plasma's two on the same scale. */
export function ionColumns({ name, sentence, liquid, plasma }: IonColumns, id: string): string {
  const most = Math.max(...[liquid, plasma].flatMap(({ cations, anions }) => [sumOf(cations), sumOf(anions)]), 1);
  const pixels = (FOOT - TOP) / most;
  return sheet(
    { id, name, sentence, height: HEIGHT },
    path(`M${MARGIN} ${FOOT}H${FIGURE_WIDTH - MARGIN}`, 1.2),
    pair(liquid, PAIRS[0], pixels),
    pair(plasma, PAIRS[1], pixels),
  );
}

function pair({ name, cations, anions }: IonStacks, middle: number, pixels: number): string {
  const sums = [cations, anions].map((stack) => rounded(sumOf(stack)));
  const size = { size: SCALE_SIZE, ink: FAINT_INK };
  return [
    label(fitted(name, ROOM, LABEL_SIZE), middle, TITLES, { anchor: 'middle' }),
    stack(cations, middle, -1, pixels),
    stack(anions, middle, 1, pixels),
    label('cations', middle - 4, KINDS, { ...size, anchor: 'end' }),
    label('anions', middle + 4, KINDS, size),
    label(`${sums[0]}`, middle - 4, SUMS, { ...size, anchor: 'end' }),
    label(`${sums[1]} mEq/L`, middle + 4, SUMS, size),
  ].join('');
}

/** A column to the left (-1) or the right (1) of `middle`; anions are hatched. */
function stack(shares: readonly IonShare[], middle: number, side: -1 | 1, pixels: number): string {
  const told = named(shares);
  const [left, right] = side < 0 ? [middle - COLUMN, middle] : [middle, middle + COLUMN];
  const drawn: string[] = [];
  const middles: number[] = [];
  let foot = FOOT;
  for (const { mEq } of told) {
    const top = foot - mEq * pixels;
    drawn.push(area(`M${left} ${tidy(top)}H${right}V${tidy(foot)}H${left}Z`, WATER));
    if (side > 0) drawn.push(hatching(left + 1, right, top, foot));
    drawn.push(line(left, top, right, top, 1));
    middles.push((top + foot) / 2);
    foot = top;
  }
  if (told.length > 0) drawn.push(path(`M${left} ${FOOT}V${tidy(foot)}H${right}V${FOOT}`, 1.2));
  const edge = side < 0 ? left : right;
  spread(middles).forEach((place, index) => {
    drawn.push(leader(told[index]!, edge, side, middles[index]!, place));
  });
  return drawn.join('');
}

/** The ion's name and amount beside its part of the column, with a line that leads to it. */
function leader({ name, mEq }: IonShare, edge: number, side: -1 | 1, from: number, to: number): string {
  const anchor = side < 0 ? 'end' : 'start';
  const x = edge + side * LED;
  const room = FIGURE_WIDTH / 4 - COLUMN - LED;
  return [
    path(`M${edge} ${tidy(from)}L${edge + side * (LED - 2)} ${tidy(to)}`, 0.9),
    label(fitted(name, room, NAME_SIZE), x, to - 1.5, { size: NAME_SIZE, anchor }),
    label(rounded(mEq), x, to + 10, { size: SCALE_SIZE, anchor, ink: FAINT_INK }),
  ].join('');
}

/** Places for labels that begin at `wanted` (rising on the sheet), moved apart and kept beside the columns. */
function spread(wanted: readonly number[]): readonly number[] {
  const places = [...wanted];
  for (let index = 0; index < places.length; index++) {
    const below = index === 0 ? FOOT - NAMED / 2 + 2 : places[index - 1]! - NAMED;
    places[index] = Math.min(places[index]!, below);
  }
  let highest = TOP + NAMED / 2 - 6;
  for (let index = places.length - 1; index >= 0; index--) {
    places[index] = Math.max(places[index]!, highest);
    highest = places[index]! + NAMED;
  }
  return places;
}

/** The smallest together, where there are more than can be named. */
function named(shares: readonly IonShare[]): readonly IonShare[] {
  if (shares.length <= MOST_NAMED) return shares;
  const kept = [...shares].sort((a, b) => b.mEq - a.mEq).slice(0, MOST_NAMED - 1);
  const rest = shares.filter((share) => !kept.includes(share));
  return [...shares.filter((share) => kept.includes(share)), { name: `${rest.length} others`, mEq: sumOf(rest) }];
}

function sumOf(shares: readonly IonShare[]): number {
  return shares.reduce((sum, { mEq }) => sum + mEq, 0);
}

/** To three digits, but never fewer than the whole number has. */
function rounded(mEq: number): string {
  return mEq >= 100 ? String(Math.round(mEq)) : String(Number(mEq.toPrecision(3)));
}
