import type { Figure } from '../text/figures.ts';
import { bagAndBody } from './figures/bag-and-body.ts';
import { comparison } from './figures/comparison.ts';
import { ionColumns } from './figures/ion-columns.ts';
import { litres } from './figures/litres.ts';
import { sodiumCourse } from './figures/sodium-course.ts';
import { twoLabels } from './figures/two-labels.ts';
import { vessels } from './figures/vessels.ts';
import { whereItGoes } from './figures/where-it-goes.ts';

/**
 * A figure as a whole SVG document that needs nothing from around it: no style sheet, no font, no theme. `id` tells it from
 * the other figures of a page.
 */
export function figureSvg(figure: Figure, id = 'figure'): string {
  switch (figure.kind) {
    case 'bag-and-body':
      return bagAndBody(figure, id);
    case 'ion-columns':
      return ionColumns(figure, id);
    case 'vessels':
      return vessels(figure, id);
    case 'where-it-goes':
      return whereItGoes(figure, id);
    case 'sodium-course':
      return sodiumCourse(figure, id);
    case 'comparison':
      return comparison(figure, id);
    case 'litres':
      return litres(figure, id);
    case 'two-labels':
      return twoLabels(figure, id);
  }
}
