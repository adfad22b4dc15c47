import type { SodiumCourse } from '../../text/figures.ts';
import { element } from '../markup.ts';
import { area, dashed, line, path, tidy } from './drawing.ts';
import { fitted, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, INK, MARGIN, painted, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';
import { roundStep } from './vessels.ts';

const LEFT = MARGIN + 30;
const RIGHT = FIGURE_WIDTH - MARGIN;
const TOP = 30;
const BOTTOM = 152;
const HOURS = BOTTOM + 15;
const FIRST_BAR = BOTTOM + 26;
const BAR = 28;
const SMALL = 10.5;
/** Orders beyond these are told in words alone. */
const MOST_ORDERS = 8;
/** Thinner than this a run could not be seen. */
const THINNEST = 2.5;
const LEGEND = 15;

/** Where an hour and a sodium stand on the sheet. */
interface Axes {
  readonly x: (hour: number) => number;
  readonly y: (sodium: number) => number;
}

/** Serum sodium over hours, its published error as a band, the limit as steps; beneath, when each order runs. */
export function sodiumCourse(figure: SodiumCourse, id: string): string {
  const { name, sentence, points, error, limit } = figure;
  const orders = figure.orders.slice(0, MOST_ORDERS);
  const hours = Math.max(points.at(-1)?.hour ?? 0, 1);
  const levels = [
    ...points.flatMap(({ sodium, regression }) => [sodium - error, sodium + error, regression]),
    ...limit.map(({ sodium }) => sodium),
  ];
  const [low, high] = levels.length > 0 ? [Math.floor(Math.min(...levels)), Math.ceil(Math.max(...levels))] : [0, 1];
  const axes: Axes = {
    x: (hour) => LEFT + ((RIGHT - LEFT) * hour) / hours,
    y: (sodium) => BOTTOM - ((BOTTOM - TOP) * (sodium - low)) / (high - low || 1),
  };
  const legend = FIRST_BAR + orders.length * BAR + 10;
  const samples = legendOf(figure);
  return sheet(
    { id, name, sentence, height: legend + samples.length * LEGEND + 4 },
    band(figure, axes),
    ...scales(low, high, hours, axes),
    limitSteps(limit, hours, axes),
    course(figure, axes),
    ...orders.flatMap((order, index) => bars(order, FIRST_BAR + index * BAR, hours, axes)),
    ...samples.map(({ drawn, words }, index) => legendRow(drawn, words, legend + index * LEGEND)),
  );
}

/** Up to the error above and below the mass balance, with an outline so that it shows without its colour. */
function band({ points, error }: SodiumCourse, { x, y }: Axes): string {
  if (points.length === 0) return '';
  const above = points.map(({ hour, sodium }) => `${tidy(x(hour))} ${tidy(y(sodium + error))}`);
  const below = points.map(({ hour, sodium }) => `${tidy(x(hour))} ${tidy(y(sodium - error))}`);
  return [
    area(`M${[...above, ...[...below].reverse()].join('L')}Z`, WATER),
    path(`M${above.join('L')}M${below.join('L')}`, 0.6, FAINT_INK),
  ].join('');
}

function course({ points }: SodiumCourse, { x, y }: Axes): string {
  if (points.length === 0) return '';
  const along = (of: (point: SodiumCourse['points'][number]) => number) =>
    `M${points.map((point) => `${tidy(x(point.hour))} ${tidy(y(of(point)))}`).join('L')}`;
  const first = points[0]!;
  return [
    dashed(
      along(({ regression }) => regression),
      1.2,
    ),
    path(
      along(({ sodium }) => sodium),
      2.2,
    ),
    element('circle', { cx: x(first.hour), cy: y(first.sodium), r: 3.2, ...painted({ fill: INK }) }),
  ].join('');
}

function limitSteps(limit: SodiumCourse['limit'], hours: number, { x, y }: Axes): string {
  const steps = limit.filter((_, index) => (limit[index - 1]?.until ?? 0) < hours);
  if (steps.length === 0) return '';
  const d = steps.map(({ until, sodium }, index) => {
    const level = tidy(y(sodium));
    return `${index === 0 ? `M${LEFT} ${level}` : `V${level}`}H${tidy(x(Math.min(until, hours)))}`;
  });
  return path(d.join(''), 1.8) + path(ticksUnder(steps, hours, { x, y }), 0.9);
}

/** Short strokes along the limit, so that it is no other line. */
function ticksUnder(steps: SodiumCourse['limit'], hours: number, { x, y }: Axes): string {
  let from = LEFT;
  const strokes: string[] = [];
  for (const { until, sodium } of steps) {
    const to = x(Math.min(until, hours));
    for (let at = from + 3; at < to; at += 7) strokes.push(`M${tidy(at)} ${tidy(y(sodium))}l4 -4`);
    from = to;
  }
  return strokes.join('');
}

function scales(low: number, high: number, hours: number, { x, y }: Axes): string[] {
  const every = Math.max(roundStep((high - low) / 5), 1);
  const levels: number[] = [];
  for (let at = Math.ceil(low / every) * every; at <= high; at += every) levels.push(at);
  const apart = [1, 2, 3, 6, 12, 24, 48, 72].find((step) => hours / step <= 6) ?? 168;
  const marks: number[] = [];
  for (let at = 0; at <= hours; at += apart) marks.push(at);
  const faint = { size: SMALL, ink: FAINT_INK };
  return [
    path(`M${LEFT} ${TOP - 6}V${BOTTOM}H${RIGHT}`, 1.2),
    path(levels.map((level) => `M${LEFT} ${tidy(y(level))}h-4`).join(''), 0.9),
    path(marks.map((hour) => `M${tidy(x(hour))} ${BOTTOM}v4`).join(''), 0.9),
    ...levels.map((level) => label(String(level), LEFT - 7, y(level) + 3.5, { ...faint, anchor: 'end' })),
    ...marks.map((hour) =>
      label(hour === 0 ? '0 h' : String(hour), x(hour), HOURS, {
        ...faint,
        anchor: hour === 0 ? 'start' : x(hour) > RIGHT - 10 ? 'end' : 'middle',
      }),
    ),
    label('serum sodium, mmol/L', MARGIN, 17, { size: SCALE_SIZE, ink: FAINT_INK }),
  ];
}

/** An order's name, and beneath it a bar for each of its runs on the axis above. */
function bars({ name, runs }: SodiumCourse['orders'][number], top: number, hours: number, { x }: Axes): string[] {
  const shown = runs.filter(([from]) => from <= hours);
  return [
    label(fitted(name, RIGHT - LEFT, SCALE_SIZE), LEFT, top + 10, { size: SCALE_SIZE }),
    line(LEFT, top + 22, RIGHT, top + 22, 0.6),
    ...shown.map(([from, to]) => {
      const left = x(Math.max(from, 0));
      const right = Math.max(x(Math.min(to, hours)), left + THINNEST);
      return area(`M${tidy(left)} ${top + 14}H${tidy(right)}V${top + 22}H${tidy(left)}Z`, INK);
    }),
  ];
}

interface Sample {
  readonly words: string;
  readonly drawn: (y: number) => string;
}

function legendOf({ error, limit }: SodiumCourse): Sample[] {
  const [from, to] = [MARGIN, MARGIN + 24];
  const samples: Sample[] = [
    { words: 'predicted by mass balance', drawn: (y) => path(`M${from} ${y}H${to}`, 2.2) },
    { words: 'predicted by regression', drawn: (y) => dashed(`M${from} ${y}H${to}`, 1.2) },
    {
      words: `such predictions missed by up to ${Number(error.toPrecision(3))} mmol/L`,
      drawn: (y) =>
        area(`M${from} ${y - 4}H${to}V${y + 4}H${from}Z`, WATER) +
        path(`M${from} ${y - 4}H${to}M${from} ${y + 4}H${to}`, 0.6, FAINT_INK),
    },
  ];
  if (limit.length > 0) {
    const strokes = (y: number) => [3, 10, 17].map((at) => `M${from + at} ${y}l4 -4`).join('');
    samples.push({
      words: 'limit of the change',
      drawn: (y) => path(`M${from} ${y}H${to}`, 1.8) + path(strokes(y), 0.9),
    });
  }
  return samples;
}

function legendRow(drawn: Sample['drawn'], words: string, y: number): string {
  return drawn(y) + label(words, MARGIN + 31, y + 3.5, { size: SMALL, ink: FAINT_INK });
}
