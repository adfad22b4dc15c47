/** What an order gives, or a mixture is: made up from parts, or a fluid by itself. */
import {
  type Amount,
  type Contents,
  type Decimal,
  dryVolume,
  isMass,
  isVolume,
  massOf,
  nearlyEqual,
  type Substance,
  times,
  ZERO,
} from '../../engine/index.ts';
import type { Span, Step } from '../../notation/ast.ts';
import type { Assumption, WorkedMixture, WorkedNoteModel, WorkedOrder, WorkedStep } from '../../note/index.ts';
import { type Solute, solutesOf, weighed } from './solutes.ts';

/** Something put into a mixture, as much of it as is still there when the mixture is finished. */
export type Part =
  | { readonly kind: 'fluid'; readonly name: string; readonly contents: Contents }
  /** Weighed, counted, or dissolved in a vehicle on the same line. */
  | { readonly kind: 'solutes'; readonly solutes: readonly Solute[]; readonly contents: Contents }
  /** Counts by its volume alone. */
  | { readonly kind: 'uncounted'; readonly name: string; readonly contents: Contents };

export interface Product {
  readonly name: string;
  /** Of the whole recipe; of 1 mL where there is none. */
  readonly contents: Contents;
  /** null: no recipe. */
  readonly recipe: {
    readonly mixture: WorkedMixture;
    readonly parts: readonly Part[];
    /** The lines of making it up, as written. */
    readonly lines: readonly string[];
  } | null;
  /** Whether another note gives it. */
  readonly fromElsewhere: boolean;
  readonly assumptions: readonly Assumption[];
}

export function productOfMixture(mixture: WorkedMixture, contents: Contents, fromElsewhere = false): Product {
  const { entity, name, steps, assumptions } = mixture;
  const written = ({ start, end }: Span) => entity.block.text.slice(start, end).replace(/\s+/g, ' ');
  return {
    name: entity.title?.text.trim() || name,
    contents,
    recipe: { mixture, parts: partsOf(steps, written), lines: steps.map(({ node }) => written(node.span)) },
    fromElsewhere,
    assumptions,
  };
}

export function productOfOrder(order: WorkedOrder, perMl: Contents, model: WorkedNoteModel): Product {
  const used = usedMixture(order, model);
  const mixture = order.mixture ?? used;
  if (mixture?.contents && mixture.entity.kind === 'mixture')
    return productOfMixture(mixture, mixture.contents, mixture === used);
  return { name: order.fluid, contents: perMl, recipe: null, fromElsewhere: used !== null, assumptions: [] };
}

/** A mixture or stock of another note that is given as it is. */
function usedMixture({ entity, node }: WorkedOrder, { mentions }: WorkedNoteModel): WorkedMixture | null {
  const [part, ...others] = node.fluid.parts;
  if (others.length > 0 || part.strength) return null;
  const { start, end } = entity.block.toSource(part.words.span);
  const found = mentions.find(({ at, of }) => of.kind === 'used' && at.start === start && at.end === end);
  return found?.of.kind === 'used' ? found.of.mixture : null;
}

/** What is taken out of well-mixed contents takes the same share of everything put in before. */
function partsOf(steps: readonly WorkedStep[], written: (span: Span) => string): readonly Part[] {
  let put: readonly { readonly node: Step; readonly contents: Contents }[] = [];
  for (const { node, before, after, brings } of steps) {
    const rest = restOf(node, { before, after, brings });
    if (rest) put = put.map((part) => ({ ...part, contents: shareOf(part.contents, rest) }));
    if (brings) put = [...put, { node, contents: brings }];
  }
  return put
    .filter(({ contents }) => !holdsNothing(contents))
    .map(({ node, contents }) => partOf(node, contents, written));
}

/** The share of what was there that a line leaves; null where it takes nothing out. */
function restOf({ kind }: Step, { before, after, brings }: Pick<WorkedStep, 'before' | 'after' | 'brings'>) {
  if (kind !== 'withdraw' && kind !== 'exchange') return null;
  const left = after.volume.minus(brings?.volume ?? ZERO);
  return before.volume.isZero() ? null : left.div(before.volume);
}

/** All of it taken out leaves nothing behind, not even the last digit of a division. */
function shareOf(contents: Contents, share: Decimal): Contents {
  return times(contents, nearlyEqual(share, ZERO) ? ZERO : share);
}

function holdsNothing({ volume, activities, masses, solutes }: Contents): boolean {
  const amounts = [volume, ...activities.values(), ...masses.values(), ...solutes.values()];
  return amounts.every((amount) => amount.isZero());
}

function partOf(node: Step, contents: Contents, written: (span: Span) => string): Part {
  if (node.kind === 'by-volume') return { kind: 'uncounted', name: node.label.text, contents };
  if (node.kind === 'withdraw' || (node.kind === 'addition' && node.vehicle))
    return { kind: 'solutes', solutes: solutesOf(contents), contents };
  const dry = drySolute(node, contents);
  if (dry) return { kind: 'solutes', solutes: [dry], contents };
  return { kind: 'fluid', name: written(node.fluid.span).replace(/^of solution /i, ''), contents };
}

/** A solute by its amount, taking up what it takes up dry; by its weight where the note weighs it. */
function drySolute(node: Step, contents: Contents): Solute | null {
  if (node.kind !== 'addition' || !node.amount || isVolume(node.amount.unit.unit)) return null;
  const [part, ...others] = node.fluid.parts;
  if (others.length > 0 || part.strength || part.ofSolution) return null;
  const [one, ...more] = amountsIn(contents);
  if (!one || more.length > 0 || !nearlyEqual(contents.volume, dryVolume(one.substance, one.amount))) return null;
  const isWeighed = isMass(node.amount.unit.unit) && !part.elemental && !part.as;
  const grams = isWeighed ? massOf(one.substance, one.amount) : null;
  return grams ? weighed(one.substance.name, grams) : (solutesOf(contents)[0] ?? null);
}

function amountsIn({ solutes, masses, activities }: Contents): readonly { substance: Substance; amount: Amount }[] {
  const read = (held: ReadonlyMap<Substance, Decimal>, of: Amount['in']) =>
    [...held].map(([substance, value]) => ({ substance, amount: { in: of, value } }));
  return [...read(solutes, 'mmol'), ...read(masses, 'g'), ...read(activities, 'units')];
}
