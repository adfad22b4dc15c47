import type { Figure } from '../../text/tree.ts';
import { element, svgText } from '../svg.ts';
import { EDGE, FIGURE_WIDTH, FONT, PAPER } from './paper.ts';
import { tonicityScale } from './tonicity-scale.ts';
import { waterLine } from './water-line.ts';

const HEIGHT = 114;

/** How much of a litre is electrolyte-free water, above where the fluid stands in the bag and in the body. */
export function bagAndBody({ sentence, freeWater, bag, body, isotonic }: Figure): string {
  const [width, height] = [FIGURE_WIDTH, HEIGHT];
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'font-family': FONT,
    },
    element('title', {}, svgText(sentence)),
    element('rect', { x: 0.5, y: 0.5, width: width - 1, height: height - 1, rx: 5, fill: PAPER, stroke: EDGE }),
    waterLine(freeWater),
    tonicityScale(bag, body, isotonic),
  );
}
