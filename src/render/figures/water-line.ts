import { area, dashed, hatching, line, path } from './drawing.ts';
import { label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, MARGIN, WATER } from './paper.ts';

const LABELS = 17;
const SPANS = 23;
const TOP = 31;
const BOTTOM = 48;
const END = FIGURE_WIDTH - MARGIN;
/** Where the litre begins when it draws water: what it draws stands to the left of zero. */
const ZERO_WHEN_DRAWING = 132;

/**
 * One litre as a level line: from zero to the right first the electrolyte-free water, plain, then the isotonic part,
 * hatched. Below zero the whole litre is hatched and draws water from beyond its left end.
 *
 * `freeWater` in mL of electrolyte-free water per litre.
 */
export function waterLine(freeWater: number): string {
  const free = Math.min(Math.round(freeWater), 1000);
  return free < 0 ? drawingLitre(-free) : dividedLitre(free);
}

/** `free` of 1000 mL are electrolyte-free. */
function dividedLitre(free: number): string {
  const border = MARGIN + ((END - MARGIN) * free) / 1000;
  const parts = [water(MARGIN), hatched(border), vessel(MARGIN)];
  if (free > 0) {
    parts.push(label(`${free} mL free of electrolytes`, MARGIN, LABELS), span(MARGIN, border - 1));
  }
  if (free < 1000) {
    parts.push(label(`${1000 - free} mL as 0.9 % saline`, END, LABELS, { anchor: 'end' }), span(border + 1, END));
  }
  if (free > 0 && free < 1000) parts.push(line(border, TOP + 1, border, BOTTOM, 1.4));
  return parts.join('');
}

/** A litre that takes `drawn` mL of water to become isotonic; to scale until the room on the left is used up. */
function drawingLitre(drawn: number): string {
  const zero = ZERO_WHEN_DRAWING;
  const start = zero - ((END - zero) * drawn) / 1000;
  const shown = Math.round(drawn);
  return [
    water(zero),
    hatched(zero),
    vessel(zero),
    outside(Math.max(start, MARGIN), zero, start < MARGIN),
    label(`draws ${volumeText(shown)} of water`, MARGIN, LABELS),
    span(Math.max(start, MARGIN), zero - 1),
    label(`as ${volumeText(1000 + shown)} of 0.9 % saline`, END, LABELS, { anchor: 'end' }),
    span(zero + 1, END),
  ].join('');
}

/** Millilitres, or litres from ten on; to three digits. */
export function volumeText(millilitres: number): string {
  return millilitres < 10_000 ? `${millilitres} mL` : `${Number((millilitres / 1000).toPrecision(3))} L`;
}

/** From its surface, which climbs the walls a little, to the floor. */
function water(start: number): string {
  const d = `M${start} ${TOP - 2}q1 4 7 4H${END - 7}q6 0 7 -4V${BOTTOM}H${start}Z`;
  return area(d, WATER);
}

function vessel(start: number): string {
  const walls = path(`M${start} ${TOP - 4}V${BOTTOM}H${END}V${TOP - 4}`, 1.4);
  const surface = path(`M${start} ${TOP - 2}q1 4 7 4H${END - 7}q6 0 7 -4`, 1);
  return walls + surface;
}

function hatched(start: number): string {
  return hatching(start + 1, END - 1, TOP + 3, BOTTOM - 1);
}

/** Water that is not in the bag: an open outline, and an arrow for where it goes. Broken off when it is longer than shown. */
function outside(start: number, end: number, brokenOff: boolean): string {
  const outline = brokenOff
    ? `M${end} ${TOP + 2}H${start}M${end} ${BOTTOM}H${start}`
    : `M${end} ${TOP + 2}H${start}V${BOTTOM}H${end}`;
  const middle = (TOP + BOTTOM) / 2 + 1;
  const strokes = brokenOff ? path(`M${start + 4} ${BOTTOM + 3}l6 -21m5 0l-6 21`, 1.2) : '';
  const arrow = path(`M${end - 30} ${middle}H${end - 4}m-6 -4.5l6 4.5l-6 4.5`, 1.6);
  return dashed(outline, 1) + strokes + arrow;
}

/** The extent that the words above belong to. */
function span(from: number, to: number): string {
  return path(`M${from} ${SPANS - 2}v4M${from} ${SPANS}H${to}M${to} ${SPANS - 2}v4`, 0.9, FAINT_INK);
}
