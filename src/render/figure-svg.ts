import type { Figure } from '../text/tree.ts';
import { bagAndBody } from './figures/bag-and-body.ts';

/** A figure as a whole SVG document that needs nothing from around it: no style sheet, no font, no theme. */
export function figureSvg(figure: Figure): string {
  return bagAndBody(figure);
}
