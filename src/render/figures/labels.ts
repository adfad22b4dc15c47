import { oneLine } from '../markdown-escape.ts';
import { element, markupText } from '../markup.ts';
import { type Colour, INK, LABEL_SIZE, painted } from './paper.ts';

/** Roughly how wide a text is set, in pixels; on the wide side of the usual sans-serif faces. */
export function setWidth(text: string, size: number): number {
  let em = 0;
  for (const character of text) em += /[ .,iljtfr|]/.test(character) ? 0.36 : /[mwMWO%]/.test(character) ? 0.92 : 0.61;
  return em * size;
}

interface LabelStyle {
  readonly size?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly ink?: Colour;
}

/** One line of text; `y` is its baseline. */
export function label(text: string, x: number, y: number, style: LabelStyle = {}): string {
  const { size = LABEL_SIZE, anchor = 'start', ink = INK } = style;
  return element(
    'text',
    { x, y, 'font-size': size, 'text-anchor': anchor, ...painted({ fill: ink }) },
    markupText(oneLine(text)),
  );
}

/** As much of a text as fits, with an ellipsis where something is left out. */
export function fitted(text: string, room: number, size: number): string {
  if (setWidth(text, size) <= room) return text;
  const characters = [...text.slice(0, 200)];
  while (characters.length > 0 && setWidth(`${characters.join('')}…`, size) > room) characters.pop();
  return `${characters.join('').trimEnd()}…`;
}

/** Words set in at most so many lines; what is left over is cut off with an ellipsis. */
export function inLines(text: string, room: number, size: number, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of oneLine(text).slice(0, 400).split(' ').filter(Boolean)) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && (setWidth(longer, size) <= room || lines.length === most))
      lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines.map((words) => fitted(words, room, size));
}

/** Something that takes room on a line. */
export interface Placed {
  readonly centre: number;
  readonly width: number;
}

/** Centres for two things, the left one first, moved no further than it takes to clear each other and the ends. */
export function placeApart(left: Placed, right: Placed, from: number, to: number, gap: number): [number, number] {
  const distance = (left.width + right.width) / 2 + gap;
  const tooNear = Math.max(distance - (right.centre - left.centre), 0);
  const leftmost = from + left.width / 2;
  const rightmost = to - right.width / 2;
  const first = Math.min(Math.max(left.centre - tooNear / 2, leftmost), rightmost - distance);
  const second = Math.min(Math.max(right.centre + tooNear / 2, first + distance), rightmost);
  return [first, second];
}
