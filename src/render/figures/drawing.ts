import { element } from '../markup.ts';
import { type Colour, INK, painted } from './paper.ts';

export function path(d: string, width: number, ink = INK): string {
  return element('path', { d, ...painted({ stroke: ink, width }) });
}

/** A line of dashes. */
export function dashed(d: string, width: number, ink = INK): string {
  return element('path', { d, ...painted({ stroke: ink, width }), 'stroke-dasharray': '4 3' });
}

export function line(x1: number, y1: number, x2: number, y2: number, width: number): string {
  return element('line', { x1, y1, x2, y2, ...painted({ stroke: INK, width }) });
}

/** A filled shape without an outline. */
export function area(d: string, fill: Colour): string {
  return element('path', { d, ...painted({ fill }) });
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

/** Dots over a rectangle, `apart` pixels from one another, every second row shifted. */
export function stipple(left: number, right: number, top: number, bottom: number, apart: number): string {
  const dots: string[] = [];
  let shifted = false;
  for (let y = bottom - apart / 2; y > top + 1; y -= apart) {
    shifted = !shifted;
    for (let x = left + apart * (shifted ? 0.5 : 1); x < right - 0.8; x += apart) dots.push(`M${tidy(x)} ${tidy(y)}h0`);
  }
  if (dots.length === 0) return '';
  return element('path', { d: dots.join(''), ...painted({ stroke: INK, width: 1.5 }), 'stroke-linecap': 'round' });
}

/** A place to a hundredth of a pixel. */
export function tidy(place: number): number {
  return Math.round(place * 100) / 100;
}
