import { element, markupText } from '../markup.ts';
import { EDGE, FIGURE_WIDTH, FONT, PAPER, painted } from './paper.ts';

/** What tells one drawing from the others of a page. */
export interface Sheet {
  /** Unique on the page; letters, digits and hyphens. */
  readonly id: string;
  readonly name: string;
  readonly sentence: string;
  readonly height: number;
}

/** A whole picture: its sheet, its words for whoever cannot see it, and what is drawn on it. */
export function sheet({ id, name, sentence, height }: Sheet, ...drawn: readonly string[]): string {
  const width = FIGURE_WIDTH;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'aria-labelledby': `${id}-title`,
      'aria-describedby': `${id}-desc`,
      'font-family': FONT,
    },
    element('title', { id: `${id}-title` }, markupText(name)),
    element('desc', { id: `${id}-desc` }, markupText(sentence)),
    element('rect', {
      x: 0.5,
      y: 0.5,
      width: width - 1,
      height: height - 1,
      rx: 5,
      ...painted({ fill: PAPER, stroke: EDGE }),
    }),
    ...drawn,
  );
}
