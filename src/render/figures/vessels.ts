import type { Vessel, Vessels } from '../../text/figures.ts';
import { area, path, stipple, tidy } from './drawing.ts';
import { inLines, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, MARGIN, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';
import { volumeText } from './water-line.ts';

const PER_ROW = 4;
/** Steps beyond these are told in words alone. */
const MOST = 24;
const ROW = 222;
const SMALL = 10.5;
/** From the top of a row. */
const WORDS = 18;
const BRIM = 78;
const FLOOR = 172;
const WIDTH = 50;
/** What a row is lower by where nothing is withdrawn. */
const OUTLET = 14;
/** And where nothing is added. */
const INLET = 24;

/** The steps from left to right, each a graduated cylinder: its level is the volume, its stipple the strength. */
export function vessels({ name, sentence, steps }: Vessels, id: string): string {
  const shown = steps.slice(0, MOST);
  const fullest = Math.max(...shown.map(({ volume, withdrawn }) => volume + withdrawn), 1);
  const rows = Math.max(Math.ceil(shown.length / PER_ROW), 1);
  const lift = shown.some(({ added }) => added !== null) ? 0 : INLET;
  const row = (shown.some(({ withdrawn }) => withdrawn > 0) ? ROW : ROW - OUTLET) - lift;
  const across = Math.min(shown.length, PER_ROW);
  const room = (FIGURE_WIDTH - 2 * MARGIN) / Math.max(across, 1);
  return sheet(
    { id, name, sentence, height: rows * row },
    ...shown.map((step, index) => {
      const middle = MARGIN + room * ((index % PER_ROW) + 0.5);
      return vessel(step, middle, Math.floor(index / PER_ROW) * row - lift, Math.min(room, 150) - 6, fullest);
    }),
  );
}

function vessel(step: Vessel, middle: number, top: number, room: number, fullest: number): string {
  const { label: name, volume, osmolarity, added, withdrawn } = step;
  const [left, right] = [middle - WIDTH / 2, middle + WIDTH / 2];
  const [brim, floor] = [top + BRIM, top + FLOOR];
  const level = floor - ((floor - brim - 6) * volume) / fullest;
  return [
    ...(name ? named(name, middle, top, room) : []),
    ...(added ? from(added, middle, top, room) : []),
    area(`M${left} ${tidy(level)}H${right}V${floor}H${left}Z`, WATER),
    osmolarity > 0 ? stipple(left, right, level, floor, apart(osmolarity)) : '',
    path(`M${left} ${tidy(level)}H${right}`, 1.3),
    path(`M${left - 4} ${brim - 4}q4 0 4 4V${floor}H${right}V${brim}q0 -4 4 -4`, 1.3),
    path(graduations(right, brim, floor, fullest), 0.8),
    withdrawn > 0 ? out(withdrawn, right, floor) : '',
    label(volumeText(rounded(volume)), middle, floor + 15, { size: SCALE_SIZE, anchor: 'middle' }),
    label(`${rounded(osmolarity)} mOsm/L`, middle, floor + 28, { size: SMALL, anchor: 'middle', ink: FAINT_INK }),
  ].join('');
}

function named(name: string, middle: number, top: number, room: number): string[] {
  const words = inLines(name, room, SMALL, 4);
  const first = top + BRIM - 12 - 12 * (words.length - 1);
  return words.map((line, index) => label(line, middle, first + 12 * index, { size: SMALL, anchor: 'middle' }));
}

/** What comes from above: how much, of what, and an arrow into the vessel. */
function from({ volume, name }: NonNullable<Vessel['added']>, middle: number, top: number, room: number): string[] {
  const words = inLines(name, room, SMALL, 3);
  const first = top + WORDS + (3 - words.length) * 6;
  return [
    label(`+ ${volumeText(rounded(volume))}`, middle, first, { size: SCALE_SIZE, anchor: 'middle' }),
    ...words.map((line, index) => label(line, middle, first + 12 * (index + 1), { size: SMALL, anchor: 'middle' })),
    path(`M${middle} ${top + BRIM - 16}v13m-3.5 -4l3.5 4l3.5 -4`, 1.3),
  ];
}

/** What leaves from below, to the right. */
function out(withdrawn: number, right: number, floor: number): string {
  const text = `− ${volumeText(rounded(withdrawn))}`;
  return [
    path(`M${right} ${floor - 5}h9v9m-3.5 -4l3.5 4l3.5 -4`, 1.3),
    label(text, right + 9, floor + 42, { size: SCALE_SIZE, anchor: 'end' }),
  ].join('');
}

/** Ticks at round volumes along the inside of the wall. */
function graduations(right: number, brim: number, floor: number, fullest: number): string {
  const step = roundStep(fullest / 5);
  const ticks: string[] = [];
  for (let at = step; at <= fullest * 1.001; at += step) {
    ticks.push(`M${right} ${tidy(floor - ((floor - brim - 6) * at) / fullest)}h-6`);
  }
  return ticks.join('');
}

/** The next of 1, 2, 5, 10, … at or above. */
export function roundStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  return power * ([1, 2, 5, 10].find((factor) => factor * power >= wanted * 0.999) ?? 10);
}

/** Pixels between dots: so many on the same area as there are osmoles, until there is no room for more. */
function apart(osmolarity: number): number {
  return Math.min(Math.max(7 * Math.sqrt(300 / osmolarity), 2.6), 60);
}

function rounded(value: number): number {
  return value >= 100 ? Math.round(value) : Number(value.toPrecision(3));
}
