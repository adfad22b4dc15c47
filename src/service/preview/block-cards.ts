/** The cards of one block, in the order in which what they are about is written. */

import type { Block, SourceSpan } from '../../markdown/note-text.ts';
import type { Span } from '../../notation/ast.ts';
import type { Entity, WorkedNoteModel } from '../../note/index.ts';

import type { Tree } from '../../text/tree.ts';

import { CAUTION } from '../cards/caution.ts';
import { whatIfCard } from '../cards/lesson-cards.ts';
import { comparisonTable } from '../cards/results-text.ts';
import { comparisonFigure } from '../figures/comparison.ts';
import { litresFigure } from '../figures/litres.ts';
import type { Lines } from '../lines.ts';
import { mixtureInFull } from './mixture.ts';
import { orderInFull, patientInFull } from './orders.ts';
import { answersIn, type Card, questionsIn, withShows } from './questions.ts';
import { type Remark, remarkTree } from './remarks.ts';

/** Something of the block that has a card, its place in the note, and the card once its remarks are known. */
interface Subject {
  readonly span: SourceSpan;
  readonly card: (remarks: readonly Tree[]) => readonly Tree[];
}

/** What of a worked note belongs to one block. */
export interface BlockParts {
  readonly mixtures: WorkedNoteModel['mixtures'][number][];
  readonly patients: WorkedNoteModel['patients'][number][];
  readonly orders: WorkedNoteModel['orders'][number][];
  readonly comparisons: WorkedNoteModel['comparisons'][number][];
  readonly shows: WorkedNoteModel['shows'][number][];
  readonly whatIfs: WorkedNoteModel['whatIfs'][number][];
}

export function partsByBlock({
  blocks,
  mixtures,
  patients,
  orders,
  comparisons,
  shows,
  whatIfs,
}: WorkedNoteModel): ReadonlyMap<Block, BlockParts> {
  const parts = new Map<Block, BlockParts>(
    blocks.map((block) => [block, { mixtures: [], patients: [], orders: [], comparisons: [], shows: [], whatIfs: [] }]),
  );
  for (const mixture of mixtures) parts.get(mixture.entity.block)?.mixtures.push(mixture);
  for (const patient of patients) parts.get(patient.entity.block)?.patients.push(patient);
  for (const order of orders) parts.get(order.entity.block)?.orders.push(order);
  for (const comparison of comparisons) parts.get(comparison.block)?.comparisons.push(comparison);
  for (const show of shows) parts.get(show.block)?.shows.push(show);
  for (const whatIf of whatIfs) parts.get(whatIf.block)?.whatIfs.push(whatIf);
  return parts;
}

export function blockCards(
  block: Block,
  parts: BlockParts,
  model: WorkedNoteModel,
  lines: Lines,
  remarks: readonly Remark[],
): readonly (readonly Tree[])[] {
  const subjects = subjectsOf(block, parts, model, lines).sort((a, b) => a.span.start - b.span.start);
  const holderOf = innermost(subjects);
  const held = new Map<Subject | null, Tree[]>();
  for (const remark of remarks) {
    const holder = holderOf(remark.at.start);
    const before = held.get(holder);
    if (before) before.push(remarkTree(remark));
    else held.set(holder, [remarkTree(remark)]);
  }
  const loose = held.get(null);
  const cards = subjects.map((subject) => subject.card(held.get(subject) ?? []).filter((tree) => tree !== CAUTION));
  return loose ? [...cards, loose] : cards;
}

/** The last of the subjects, which are in the order of their places, that holds an offset. */
function innermost(subjects: readonly Subject[]): (offset: number) => Subject | null {
  let furthest = 0;
  /** How far this one and those before it reach. */
  const reach = subjects.map(({ span }) => {
    furthest = Math.max(furthest, span.end);
    return furthest;
  });
  return (offset) => {
    for (let at = firstNotBefore(subjects, offset + 1) - 1; at >= 0 && reach[at]! >= offset; at -= 1)
      if (subjects[at]!.span.end >= offset) return subjects[at]!;
    return null;
  };
}

/** Of things in the order of their places: the index of the first whose place is not before `start`. */
function firstNotBefore(starts: readonly { readonly span: Span }[], start: number): number {
  let [low, high] = [0, starts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (starts[middle]!.span.start < start) low = middle + 1;
    else high = middle;
  }
  return low;
}

function subjectsOf(block: Block, parts: BlockParts, model: WorkedNoteModel, lines: Lines): Subject[] {
  const { policy } = model;
  const shows = byEntity(parts.shows);
  const told = (entity: Entity, card: Card) => withShows(shows.get(entity) ?? [], policy.reference, card);
  const place = ({ header, end }: Entity) => block.toSource({ start: header.start, end });
  return [
    ...parts.mixtures.map((mixture) => ({
      span: place(mixture.entity),
      card: told(mixture.entity, (besides) => mixtureInFull(mixture, model, lines, besides)),
    })),
    ...parts.patients.map((patient) => ({
      span: place(patient.entity),
      card: told(patient.entity, (besides) => [...patientInFull(patient, model, lines), ...besides]),
    })),
    ...parts.orders.map((order) => ({
      span: place(order.entity),
      card: told(order.entity, (besides) => orderInFull(order, model, lines, besides)),
    })),
    ...parts.whatIfs.map((whatIf) => ({
      span: block.toSource(whatIf.node.span),
      card: (remarks: readonly Tree[]): readonly Tree[] => {
        const [heading, ...rest] = whatIfCard(whatIf, policy.reference);
        return [heading!, ...remarks, ...rest];
      },
    })),
    ...(shows.get(null) ?? []).map((show) => ({
      span: block.toSource(show.span),
      card: (remarks: readonly Tree[]) => [
        ...questionsIn([show], policy.reference),
        ...remarks,
        ...answersIn([show], policy.reference),
      ],
    })),
    ...parts.comparisons.map((comparison) => ({
      span: block.toSource(comparison.node.span),
      card: (remarks: readonly Tree[]): readonly Tree[] => [
        { kind: 'heading', text: 'Side by side' },
        ...remarks,
        comparisonTable(comparison, policy.reference),
        comparisonFigure(comparison, policy.reference),
        ...litresFigure(comparison, policy.reference),
      ],
    })),
  ];
}

/** The `show` and `ask` lines of each entity; under null those that belong to none. */
function byEntity(shows: BlockParts['shows']): ReadonlyMap<Entity | null, BlockParts['shows']> {
  const found = new Map<Entity | null, BlockParts['shows']>();
  for (const show of shows) {
    const before = found.get(show.open);
    if (before) before.push(show);
    else found.set(show.open, [show]);
  }
  return found;
}
