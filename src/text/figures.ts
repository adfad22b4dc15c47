/**
 * Figures as data, for drawing: JavaScript numbers, made from exact results and never worked with again.
 *
 * `name` is what a figure is called, `sentence` says in words what it shows, for whoever cannot see it.
 */
interface Shown {
  readonly name: string;
  readonly sentence: string;
}

export type Figure = BagAndBody | IonColumns | Vessels | WhereItGoes | SodiumCourse | Comparison | Litres | TwoLabels;

/** One liquid on the water line and on the tonicity scale. */
export interface Waters {
  /** mL of electrolyte-free water per litre: 1000 for dextrose 5 %, 0 for 0.9 % saline, negative when hypertonic. */
  readonly freeWater: number;
  /** mOsm/L in the bag, and of the particles that stay effective in the body. */
  readonly bag: number;
  readonly body: number;
}

/** One litre as a level line split into electrolyte-free and isotonic water, above a tonicity scale. */
export interface BagAndBody extends Shown, Waters {
  readonly kind: 'bag-and-body';
  /** The range called isotonic, mOsm/L. */
  readonly isotonic: readonly [number, number];
}

/** An ion's share of a column. */
export interface IonShare {
  readonly name: string;
  /** mEq/L. */
  readonly mEq: number;
}

/** Cations and anions of one liquid, each from the foot of its column upwards. */
export interface IonStacks {
  readonly name: string;
  readonly cations: readonly IonShare[];
  readonly anions: readonly IonShare[];
}

/** Two facing stacks beside plasma's two, on one scale. */
export interface IonColumns extends Shown {
  readonly kind: 'ion-columns';
  readonly liquid: IonStacks;
  readonly plasma: IonStacks;
}

/** What one step leaves in the vessel, and what it brought and took out. */
export interface Vessel {
  /** What it is called, where it is no step of its own. */
  readonly label?: string;
  /** mL, and mOsm/L. */
  readonly volume: number;
  readonly osmolarity: number;
  /** From above: how much in mL, and of what. */
  readonly added: { readonly volume: number; readonly name: string } | null;
  /** mL, from below. */
  readonly withdrawn: number;
}

/** The steps of making a mixture up, from left to right. */
export interface Vessels extends Shown {
  readonly kind: 'vessels';
  readonly steps: readonly Vessel[];
}

/** mL in each compartment. */
export interface Basins {
  readonly cells: number;
  readonly interstitium: number;
  readonly plasma: number;
}

/** Where an infused fluid goes. */
export interface WhereItGoes extends Shown {
  readonly kind: 'where-it-goes';
  /** Of the body's water, in proportion. */
  readonly water: Basins;
  /** mL that arrive; below zero: taken away. */
  readonly arrives: Basins;
  /** Before the dextrose is used, where that differs. */
  readonly before: Basins | null;
}

/** Serum sodium over hours. */
export interface SodiumCourse extends Shown {
  readonly kind: 'sodium-course';
  /** h, and mmol/L by mass balance and by regression; ascending. */
  readonly points: readonly { readonly hour: number; readonly sodium: number; readonly regression: number }[];
  /** mmol/L by which such predictions missed, at most. */
  readonly error: number;
  /** Steps of the limit: up to `until` h no further than `sodium` mmol/L. Empty where none is held against it. */
  readonly limit: readonly { readonly until: number; readonly sodium: number }[];
  /** Each order's runs in h. */
  readonly orders: readonly { readonly name: string; readonly runs: readonly (readonly [number, number])[] }[];
}

/** One row a fluid: its water line and its place on the scale. */
export interface Comparison extends Shown {
  readonly kind: 'comparison';
  readonly rows: readonly (Waters & { readonly name: string })[];
  readonly isotonic: readonly [number, number];
}

/** A litre of each fluid, and where it goes. */
export interface Litres extends Shown {
  readonly kind: 'litres';
  /** mL of the litre; cells below zero: taken out of them, and outside as well. */
  readonly rows: readonly { readonly name: string; readonly goes: Basins }[];
}

/** One bag that two labels are true of. */
export interface TwoLabels extends Shown {
  readonly kind: 'two-labels';
  /** `the same 75.7 mmol/L in solution`. */
  readonly same: string;
  /** What is on the label, and the form of the solute that it counts. */
  readonly labels: readonly [TwoLabel, TwoLabel];
}

interface TwoLabel {
  readonly text: string;
  readonly form: string;
}
