import { element } from '../markup.ts';
import { line, path, tidy } from './drawing.ts';
import { label, placeApart, setWidth } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, INK, LABEL_SIZE, MARGIN, PAPER, painted, SCALE_SIZE } from './paper.ts';

const LABELS = 71;
const AXIS = 84;
const BRACKET = 91;
const NUMBERS = 106;

const START = MARGIN + 6;
const END = FIGURE_WIDTH - MARGIN - 6;
/** Even steps to 600 mOsm/L, where nearly all fluids lie; equal factors from there to the strongest concentrates. */
const EVEN_TO = 600;
const EVEN_SHARE = 0.62;
const TOP = 10_000;
const NUMBERED = [0, EVEN_TO, 2000, TOP];

const UNIT = 'mOsm/L';
const WORD = 'isotonic';

/** Where an osmolarity in mOsm/L stands on a scale between two places; what lies beyond an end stands at the end. */
export function osmolarityScale(start: number, end: number): (osmolarity: number) => number {
  const evenEnd = start + (end - start) * EVEN_SHARE;
  return (osmolarity) => {
    if (osmolarity <= EVEN_TO) return start + ((evenEnd - start) * Math.max(osmolarity, 0)) / EVEN_TO;
    return evenEnd + ((end - evenEnd) * Math.log(Math.min(osmolarity, TOP) / EVEN_TO)) / Math.log(TOP / EVEN_TO);
  };
}

const place = osmolarityScale(START, END);

/** The scale in mOsm/L with the isotonic range as a bracket, a filled mark for the bag and an open one for the body. */
export function tonicityScale(bag: number, body: number, isotonic: readonly [number, number]): string {
  return [axis(), ...range(isotonic), ...marks(Math.round(bag), Math.round(body))].join('');
}

function axis(): string {
  const even = [0, 100, 200, 300, 400, 500, 600];
  const factors = [700, 800, 900, 1000, 2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10_000];
  const ticks = [...even, ...factors].map((at) => `M${tidy(place(at))} ${AXIS}v${NUMBERED.includes(at) ? 6 : 3.5}`);
  return line(START, AXIS, END, AXIS, 1.2) + path(ticks.join(''), 0.9);
}

interface ScaleNumber {
  readonly text: string;
  readonly centre: number;
}

/** The bracket with its numbers, and the numbers of the scale where they leave room. */
function range([low, high]: readonly [number, number]): string[] {
  const [from, to] = [place(low), place(high)];
  const centre = (from + to) / 2;
  const reach = Math.max((to - from) / 2, widthOf(WORD) / 2 + 3) + 3;
  const bracket: ScaleNumber[] = [
    { text: WORD, centre },
    { text: String(low), centre: centre - reach - widthOf(String(low)) / 2 },
    { text: String(high), centre: centre + reach + widthOf(String(high)) / 2 },
  ];
  const zero = { text: `0 ${UNIT}`, centre: MARGIN + widthOf(`0 ${UNIT}`) / 2 };
  const unitAtZero = !bracket.some((other) => touches(other, zero));
  const top = unitAtZero ? `${TOP}` : `${TOP} ${UNIT}`;
  const wanted = [
    unitAtZero ? zero : { text: '0', centre: START },
    { text: top, centre: FIGURE_WIDTH - MARGIN - widthOf(top) / 2 },
    ...NUMBERED.slice(1, -1).map((at) => ({ text: String(at), centre: place(at) })),
  ];
  const shown = [...bracket];
  for (const number of wanted) if (!shown.some((other) => touches(other, number))) shown.push(number);
  return [
    path(`M${tidy(from)} ${BRACKET - 4}v4H${tidy(to)}v-4`, 1.4),
    ...shown.map(({ text, centre }) =>
      label(text, centre, NUMBERS, { size: SCALE_SIZE, anchor: 'middle', ink: text === WORD ? INK : FAINT_INK }),
    ),
  ];
}

function widthOf(text: string): number {
  return setWidth(text, SCALE_SIZE);
}

function touches(a: ScaleNumber, b: ScaleNumber): boolean {
  return Math.abs(a.centre - b.centre) < (widthOf(a.text) + widthOf(b.text)) / 2 + 3;
}

function marks(bag: number, body: number): string[] {
  const [inBag, inBody] = [place(bag), place(body)];
  const ring = element('circle', {
    cx: inBody,
    cy: AXIS,
    r: 6.6,
    ...painted({ fill: PAPER, stroke: INK, width: 1.8 }),
  });
  const dot = element('circle', { cx: inBag, cy: AXIS, r: 3.9, ...painted({ fill: INK }) });
  const joint = bag === body ? '' : line(inBag, AXIS, inBody, AXIS, 3.2);
  return [joint, ring, dot, ...markLabels(bag, body)];
}

/** Each mark's name and number above it; led to it where there is no room above it. */
function markLabels(bag: number, body: number): string[] {
  const [from, to] = [MARGIN, FIGURE_WIDTH - MARGIN];
  const named = (text: string, osmolarity: number) => ({
    text,
    centre: place(osmolarity),
    width: setWidth(text, LABEL_SIZE),
  });
  if (bag === body) {
    const both = named(`bag and body ${bag}`, bag);
    const centre = Math.min(Math.max(both.centre, from + both.width / 2), to - both.width / 2);
    return [label(both.text, centre, LABELS, { anchor: 'middle' })];
  }
  const [left, right] = [named(`bag ${bag}`, bag), named(`body ${body}`, body)].sort((a, b) => a.centre - b.centre);
  const centres = placeApart(left!, right!, from, to, 10);
  return [left!, right!].flatMap(({ text, width, centre: mark }, index) => {
    const centre = centres[index]!;
    const aside = Math.abs(mark - centre) > width / 2 + 2;
    return [
      aside ? line(centre, LABELS + 4, mark, AXIS - 4, 0.9) : '',
      label(text, centre, LABELS, { anchor: 'middle' }),
    ];
  });
}
