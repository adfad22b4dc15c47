import type { TwoLabels } from '../../text/figures.ts';
import { area, path, stipple } from './drawing.ts';
import { inLines, label } from './labels.ts';
import { FAINT_INK, FIGURE_WIDTH, MARGIN, PAPER, SCALE_SIZE, WATER } from './paper.ts';
import { sheet } from './sheet.ts';

const TOP = 40;
const FLOOR = 122;
const LEVEL = 52;
const SMALL = 10.5;
const [LEFT, RIGHT] = [28, FIGURE_WIDTH - 28];
const MIDDLE = FIGURE_WIDTH / 2;

/** One bag lying across the sheet with a label on each half, and below it what is the same under both. */
export function twoLabels({ name, sentence, same, labels }: TwoLabels, id: string): string {
  const [first, second] = labels;
  return sheet(
    { id, name, sentence, height: 152 },
    area(`M${LEFT + 4} ${LEVEL}H${RIGHT - 4}V${FLOOR}H${LEFT + 4}Z`, WATER),
    stipple(LEFT + 4, RIGHT - 4, LEVEL, FLOOR, 9),
    path(`M${LEFT + 4} ${LEVEL}H${RIGHT - 4}`, 1.2),
    path(
      `M${LEFT + 8} ${TOP}H${MIDDLE - 10}v-14h20v14H${RIGHT - 8}q6 0 6 6V${FLOOR}H${LEFT + 2}V${TOP + 6}q0 -6 6 -6Z`,
      1.5,
    ),
    tag(first, (LEFT + MIDDLE) / 2 + 3),
    tag(second, (RIGHT + MIDDLE) / 2 - 3),
    label(same, MIDDLE, FLOOR + 20, { anchor: 'middle' }),
  );
}

/** A label stuck on the bag: the words on it, and the crystal that it counts. */
function tag({ text, form }: TwoLabels['labels'][number], middle: number): string {
  const half = 66;
  const [upper, lower] = [LEVEL + 9, FLOOR - 9];
  const d = `M${middle - half} ${upper}H${middle + half}V${lower}H${middle - half}Z`;
  const words = inLines(text, 2 * half - MARGIN, SCALE_SIZE, 2);
  const forms = inLines(form, 2 * half - MARGIN, SMALL, 2);
  const first = (upper + lower) / 2 - 6 * (words.length + forms.length) + 10;
  return [
    area(d, PAPER),
    path(d, 1.2),
    ...words.map((line, index) => label(line, middle, first + 12 * index, { size: SCALE_SIZE, anchor: 'middle' })),
    ...forms.map((line, index) =>
      label(line, middle, first + 12 * (words.length + index), { size: SMALL, anchor: 'middle', ink: FAINT_INK }),
    ),
  ].join('');
}
