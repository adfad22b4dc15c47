/**
 * What every figure is drawn on and with. A picture in a hover cannot see the theme, so it brings its own light sheet;
 * ink on paper and ink on water keep more than 4.5 to 1 (WCAG 2.2, success criterion 1.4.3).
 */
export const PAPER = '#fbfaf6';
export const EDGE = '#7d8f99';
export const INK = '#152a36';
export const FAINT_INK = '#4a606c';
export const WATER = '#d9ebf2';

export const FIGURE_WIDTH = 420;
export const MARGIN = 16;

export const LABEL_SIZE = 12;
export const SCALE_SIZE = 11;
export const FONT = "system-ui, -apple-system, 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif";
