import type { Basins, WhereItGoes } from '../../text/figures.ts';
import { area, dashed, hatching, line, path, tidy } from './drawing.ts';
import { label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, LABEL_SIZE, MARGIN, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';

const ORDER = ['cells', 'interstitium', 'plasma'] as const;
const GAP = 8;
const NAMES = 20;
const NUMBERS = 36;
const TOP = 46;
/** Tallest that a fill is drawn, above or below the water that is there already. */
const REACH = 52;
/** A fall that leaves room for an arrow. */
const ARROW = 12;
/** mL per pixel of width below which nothing is drawn. */
const LEAST = 1e-9;

/**
 * Three basins, as wide as the water of each, filled by what arrives; what is taken away stands below the line. Areas are in
 * proportion to millilitres.
 */
export function whereItGoes({ name, sentence, water, arrives, before }: WhereItGoes, id: string): string {
  const widths = widthsOf(water);
  const heights = ORDER.flatMap((one) => [arrives, before].flatMap((set) => (set ? [set[one] / widths[one]] : [])));
  const up = Math.max(0, ...heights);
  const down = Math.max(0, ...heights.map((height) => -height));
  const pixels = REACH / Math.max(up, down, LEAST);
  const level = TOP + up * pixels + 8;
  const floor = level + Math.max(down * pixels, 14) + 8;
  const drawn: string[] = [];
  let left = MARGIN;
  for (const one of ORDER) {
    const right = left + widths[one];
    drawn.push(basin(left, right, level, floor, (arrives[one] / widths[one]) * pixels));
    if (before) drawn.push(dashed(mark(left, right, level - (before[one] / widths[one]) * pixels), 1.3));
    drawn.push(...words(one, arrives[one], left, right));
    left = right + GAP;
  }
  const legend = before ? 'dashed: before the dextrose is used' : '';
  return sheet(
    { id, name, sentence, height: floor + (legend ? 28 : 14) },
    ...drawn,
    legend ? label(legend, MARGIN, floor + 18, { size: SCALE_SIZE, ink: FAINT_INK }) : '',
  );
}

function widthsOf(water: Basins): Basins {
  const all = ORDER.reduce((sum, one) => sum + water[one], 0);
  const room = FIGURE_WIDTH - 2 * MARGIN - GAP * (ORDER.length - 1);
  const width = (one: keyof Basins) => (room * water[one]) / all;
  return { cells: width('cells'), interstitium: width('interstitium'), plasma: width('plasma') };
}

/** The water that is there, a line at its level, and what comes to it, hatched, or leaves it, an outline below. */
function basin(left: number, right: number, level: number, floor: number, by: number): string {
  const there = by < 0 ? level - by : level;
  const parts = [area(`M${tidy(left)} ${tidy(there)}H${tidy(right)}V${floor}H${tidy(left)}Z`, WATER)];
  if (by > 0) {
    parts.push(area(`M${tidy(left)} ${tidy(level - by)}H${tidy(right)}V${tidy(level)}H${tidy(left)}Z`, WATER));
    parts.push(
      hatching(left + 1, right - 1, level - by + 1, level - 1),
      line(left, level - by, right, level - by, 1.6),
    );
  } else if (by < 0) {
    parts.push(line(left, there, right, there, 1.6));
    if (-by > ARROW)
      parts.push(path(`M${tidy((left + right) / 2)} ${tidy(level + 3)}v${tidy(-by - 6)}m-4 -5l4 5l4 -5`, 1.2));
  }
  parts.push(dashed(mark(left, right, level), 0.9));
  parts.push(path(`M${tidy(left)} ${TOP - 2}V${tidy(floor)}H${tidy(right)}V${TOP - 2}`, 1.4));
  return parts.join('');
}

function mark(left: number, right: number, y: number): string {
  return `M${tidy(left)} ${tidy(y)}H${tidy(right)}`;
}

/** The narrow basin of plasma stands at the edge, and its words end there. */
function words(one: keyof Basins, millilitres: number, left: number, right: number): string[] {
  const anchor = one === 'plasma' ? 'end' : 'start';
  const x = one === 'plasma' ? right : left;
  return [
    label(one, x, NAMES, { size: SCALE_SIZE, anchor, ink: FAINT_INK }),
    label(amount(millilitres), x, NUMBERS, { size: LABEL_SIZE, anchor }),
  ];
}

function amount(millilitres: number): string {
  const shown = Math.abs(millilitres) >= 100 ? Math.round(millilitres) : Number(millilitres.toPrecision(3));
  return `${shown} mL`;
}
