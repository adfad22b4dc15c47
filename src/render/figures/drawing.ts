import { element } from '../svg.ts';
import { INK } from './paper.ts';

export function path(d: string, width: number, ink = INK): string {
  return element('path', { d, fill: 'none', stroke: ink, 'stroke-width': width });
}

export function line(x1: number, y1: number, x2: number, y2: number, width: number): string {
  return element('line', { x1, y1, x2, y2, stroke: INK, 'stroke-width': width });
}

const HATCH_STEP = 6;

/** Rising strokes over a rectangle, cut at its sides; drawn one by one, so that no figure needs a name for a pattern. */
export function hatching(left: number, right: number, top: number, bottom: number): string {
  const height = bottom - top;
  const strokes: string[] = [];
  for (let foot = left - height + HATCH_STEP / 2; foot < right; foot += HATCH_STEP) {
    const from = Math.max(left - foot, 0);
    const to = Math.min(right - foot, height);
    if (to > from) strokes.push(`M${tidy(foot + from)} ${tidy(bottom - from)}l${tidy(to - from)} ${tidy(from - to)}`);
  }
  return strokes.length === 0 ? '' : path(strokes.join(''), 0.9);
}

/** A place to a hundredth of a pixel. */
export function tidy(place: number): number {
  return Math.round(place * 100) / 100;
}
