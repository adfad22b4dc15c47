/**
 * What every figure is drawn on and with. Each colour is written out, for a picture that stands alone (a hover shows it as an
 * image that the theme does not reach), and has a class by which a page's style sheet puts the theme's colour in its place.
 * Ink on paper and ink on water keep more than 4.5 to 1 (WCAG 2.2, success criterion 1.4.3).
 */
export interface Colour {
  readonly colour: string;
  readonly name: 'paper' | 'edge' | 'ink' | 'faint' | 'water';
}

export const PAPER: Colour = { colour: '#fbfaf6', name: 'paper' };
export const EDGE: Colour = { colour: '#7d8f99', name: 'edge' };
export const INK: Colour = { colour: '#152a36', name: 'ink' };
export const FAINT_INK: Colour = { colour: '#4a606c', name: 'faint' };
export const WATER: Colour = { colour: '#d9ebf2', name: 'water' };

export const FIGURE_WIDTH = 360;
export const MARGIN = 12;

export const LABEL_SIZE = 12;
export const SCALE_SIZE = 10.5;
export const FONT = "system-ui, -apple-system, 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif";

/** How a shape is filled and outlined. */
export function painted({ fill, stroke, width = 1 }: { fill?: Colour; stroke?: Colour; width?: number }) {
  const names = [fill ? `fill-${fill.name}` : '', stroke ? `stroke-${stroke.name}` : ''].filter(Boolean);
  return {
    class: names.join(' '),
    fill: fill?.colour ?? 'none',
    ...(stroke && { stroke: stroke.colour, 'stroke-width': width }),
  };
}
