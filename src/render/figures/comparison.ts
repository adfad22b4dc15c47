import type { Comparison } from '../../text/figures.ts';
import { element } from '../markup.ts';
import { area, dashed, hatching, line, path, tidy } from './drawing.ts';
import { fitted, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, INK, LABEL_SIZE, MARGIN, PAPER, painted, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';
import { osmolarityScale } from './tonicity-scale.ts';
import { volumeText } from './water-line.ts';

const HEADS = 20;
const FIRST = 30;
const ROW = 62;
/** The litre runs from zero to its end; what a hypertonic fluid draws stands to the left of zero. */
const ZERO = MARGIN + 44;
const LITRE = 170;
const SCALE = { from: 196, to: FIGURE_WIDTH - MARGIN - 6 };
const SMALL = 10.5;

/** Small multiples of the water line and the tonicity scale, one row a fluid. */
export function comparison({ name, sentence, rows, isotonic }: Comparison, id: string): string {
  const place = osmolarityScale(SCALE.from, SCALE.to);
  const foot = FIRST + rows.length * ROW;
  const [low, high] = isotonic.map(place) as [number, number];
  return sheet(
    { id, name, sentence, height: foot + 30 },
    label('of one litre', MARGIN, HEADS, { size: SCALE_SIZE, ink: FAINT_INK }),
    label('mOsm/L', SCALE.to + 6, HEADS, { size: SCALE_SIZE, anchor: 'end', ink: FAINT_INK }),
    path(rows.map((_, index) => bounds(low, high, FIRST + index * ROW)).join(''), 1, FAINT_INK),
    ...rows.map((row, index) => fluid(row, FIRST + index * ROW, place)),
    path(`M${tidy(low)} ${foot + 2}v4H${tidy(high)}v-4`, 1.4),
    label('isotonic', (low + high) / 2, foot + 19, { size: SCALE_SIZE, anchor: 'middle' }),
    label('0', SCALE.from, foot + 19, { size: SMALL, anchor: 'middle', ink: FAINT_INK }),
    label('10000', SCALE.to + 6, foot + 19, { size: SMALL, anchor: 'end', ink: FAINT_INK }),
  );
}

function fluid(row: Comparison['rows'][number], top: number, place: (osmolarity: number) => number): string {
  const { name, freeWater, bag, body } = row;
  return [
    label(fitted(name, FIGURE_WIDTH - 2 * MARGIN, LABEL_SIZE), MARGIN, top + 14),
    litre(freeWater, top + 21, top + 36),
    label(waterWords(freeWater), MARGIN, top + 49, { size: SMALL, ink: FAINT_INK }),
    marks(place(bag), place(body), top + 29),
    label(osmolarityWords(Math.round(bag), Math.round(body)), SCALE.to + 6, top + 49, {
      size: SMALL,
      anchor: 'end',
      ink: FAINT_INK,
    }),
  ].join('');
}

/** Where the isotonic range begins and ends on the scale of a row. */
function bounds(low: number, high: number, top: number): string {
  return `M${tidy(low)} ${top + 19}v20M${tidy(high)} ${top + 19}v20`;
}

/** Plain: electrolyte-free; hatched: as 0.9 % saline; dashed, left of zero: water that is drawn. */
function litre(freeWater: number, top: number, bottom: number): string {
  const free = Math.max(Math.min(freeWater, 1000), 0);
  const border = ZERO + ((LITRE - ZERO) * free) / 1000;
  const parts = [
    area(`M${ZERO} ${top + 2}H${LITRE}V${bottom}H${ZERO}Z`, WATER),
    hatching(border + 1, LITRE - 1, top + 3, bottom - 1),
    path(`M${ZERO} ${top - 2}V${bottom}H${LITRE}V${top - 2}M${ZERO} ${top + 2}H${LITRE}`, 1.3),
  ];
  if (free > 0 && free < 1000) parts.push(line(border, top + 2, border, bottom, 1.4));
  if (freeWater < 0) parts.push(drawn(-freeWater, top, bottom));
  return parts.join('');
}

/** To scale until the room on the left is used up; broken off then. */
function drawn(millilitres: number, top: number, bottom: number): string {
  const start = ZERO - ((LITRE - ZERO) * millilitres) / 1000;
  const shown = Math.max(start, MARGIN);
  const side = start < MARGIN ? 'M' : 'V';
  const middle = (top + bottom) / 2 + 1;
  const arrow = ZERO - shown > 14 ? path(`M${tidy(ZERO - 13)} ${middle}h10m-4 -3.5l4 3.5l-4 3.5`, 1.3) : '';
  const outline =
    side === 'V'
      ? `M${ZERO} ${top + 2}H${tidy(shown)}V${bottom}H${ZERO}`
      : `M${ZERO} ${top + 2}H${shown}M${ZERO} ${bottom}H${shown}`;
  const broken = side === 'M' ? path(`M${shown + 2} ${bottom + 2}l5 -18m4 0l-5 18`, 1) : '';
  return dashed(outline, 1) + broken + arrow;
}

/** Filled for the bag, open for the body, joined where they differ. */
function marks(inBag: number, inBody: number, y: number): string {
  return [
    line(SCALE.from, y, SCALE.to, y, 0.9),
    Math.abs(inBag - inBody) < 0.5 ? '' : line(inBag, y, inBody, y, 3),
    element('circle', { cx: inBody, cy: y, r: 5.6, ...painted({ fill: PAPER, stroke: INK, width: 1.6 }) }),
    element('circle', { cx: inBag, cy: y, r: 3.3, ...painted({ fill: INK }) }),
  ].join('');
}

function waterWords(freeWater: number): string {
  const shown = Math.min(Math.round(freeWater), 1000);
  return shown < 0 ? `draws ${volumeText(-shown)} of water` : `${shown} mL free of electrolytes`;
}

function osmolarityWords(bag: number, body: number): string {
  return bag === body ? `bag and body ${bag}` : `bag ${bag}, body ${body}`;
}
