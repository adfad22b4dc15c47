import type { Basins, Litres } from '../../text/figures.ts';
import { area, dashed, hatching, line, path, stipple, tidy } from './drawing.ts';
import { fitted, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, LABEL_SIZE, MARGIN, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';

const FIRST = 8;
const ROW = 54;
const BAR = 14;
const DOTS = 3.6;
/** A stretch that leaves room for an arrow. */
const ARROW = 16;

/** A litre of each fluid as a bar: what goes into cells plain, the interstitium hatched, plasma dotted; one scale for all. */
export function litres({ name, sentence, rows }: Litres, id: string): string {
  const least = Math.min(0, ...rows.map(({ goes }) => goes.cells));
  const most = Math.max(1000, ...rows.map(({ goes }) => goes.interstitium + goes.plasma));
  const scale = (FIGURE_WIDTH - 2 * MARGIN) / (most - least);
  const zero = MARGIN - least * scale;
  const foot = FIRST + rows.length * ROW;
  return sheet(
    { id, name, sentence, height: foot + 28 },
    ...rows.map((row, index) => fluid(row, FIRST + index * ROW, zero, scale)),
    ...legend(foot + 6),
  );
}

function fluid({ name, goes }: Litres['rows'][number], top: number, zero: number, scale: number): string {
  const [upper, lower] = [top + 19, top + 19 + BAR];
  const inCells = zero + Math.max(goes.cells, 0) * scale;
  const inInterstitium = inCells + goes.interstitium * scale;
  const end = inInterstitium + goes.plasma * scale;
  return [
    label(fitted(name, FIGURE_WIDTH - 2 * MARGIN, LABEL_SIZE), MARGIN, top + 13),
    area(box(zero, end, upper, lower), WATER),
    hatching(inCells + 1, inInterstitium - 1, upper + 1, lower - 1),
    stipple(inInterstitium, end, upper, lower, DOTS),
    path(box(zero, end, upper, lower), 1.3),
    goes.cells > 0 ? line(inCells, upper, inCells, lower, 1.3) : '',
    line(inInterstitium, upper, inInterstitium, lower, 1.3),
    goes.cells < 0 ? drawn(zero + goes.cells * scale, zero, upper, lower) : '',
    label(words(goes), MARGIN, lower + 12, { size: SCALE_SIZE, ink: FAINT_INK }),
  ].join('');
}

/** Water that leaves the cells, to the left of zero. */
function drawn(start: number, zero: number, upper: number, lower: number): string {
  const middle = (upper + lower) / 2;
  const arrow = zero - start > ARROW ? path(`M${tidy(zero - 13)} ${middle}h10m-4 -3.5l4 3.5l-4 3.5`, 1.3) : '';
  return zero - start < 0.5 ? '' : dashed(box(start, zero, upper, lower), 1) + arrow;
}

function box(left: number, right: number, upper: number, lower: number): string {
  return `M${tidy(left)} ${upper}H${tidy(right)}V${lower}H${tidy(left)}Z`;
}

function words({ cells, interstitium, plasma }: Basins): string {
  const [inCells, outside, inPlasma] = [cells, interstitium, plasma].map((value) => Math.round(value)) as [
    number,
    number,
    number,
  ];
  const first = inCells < 0 ? `${-inCells} mL out of cells` : `cells ${Math.abs(inCells)} mL`;
  return `${first}, interstitium ${outside} mL, plasma ${inPlasma} mL`;
}

/** What each pattern is, so that nothing is told by its place or its colour alone. */
function legend(top: number): readonly string[] {
  const [upper, lower] = [top, top + 11];
  const swatch = (left: number) => area(box(left, left + 18, upper, lower), WATER);
  const outline = (left: number) => path(box(left, left + 18, upper, lower), 1);
  const text = (written: string, left: number) => label(written, left + 23, lower - 1.5, { size: SCALE_SIZE });
  const [cells, interstitium, plasma] = [MARGIN, MARGIN + 92, MARGIN + 212];
  return [
    swatch(cells) + outline(cells) + text('into cells', cells),
    swatch(interstitium) +
      hatching(interstitium + 1, interstitium + 17, upper + 1, lower - 1) +
      outline(interstitium) +
      text('interstitium', interstitium),
    swatch(plasma) + stipple(plasma, plasma + 18, upper, lower, DOTS) + outline(plasma) + text('plasma', plasma),
  ];
}
