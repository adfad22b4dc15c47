/** The cards of one block, in the order in which what they are about is written. */
import type { Block, SourceSpan } from '../../markdown/note-text.ts';
import type { Entity, WorkedNoteModel } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { CAUTION } from '../cards/caution.ts';
import { comparisonTable } from '../cards/results-text.ts';
import { comparisonFigure } from '../figures/comparison.ts';
import type { Lines } from '../lines.ts';
import { shownText } from '../results.ts';
import { mixtureInFull } from './mixture.ts';
import { orderInFull, patientInFull } from './orders.ts';
import { type Remark, remarkTree } from './remarks.ts';

/** Something of the block that has a card, its place in the note, and the card once its remarks are known. */
interface Subject {
  readonly at: SourceSpan;
  readonly card: (remarks: readonly Tree[]) => readonly Tree[];
}

export function blockCards(
  block: Block,
  model: WorkedNoteModel,
  lines: Lines,
  remarks: readonly Remark[],
): readonly (readonly Tree[])[] {
  const subjects = subjectsOf(block, model, lines).sort((a, b) => a.at.start - b.at.start);
  const of = (subject: Subject) =>
    remarks.filter((remark) => subjects.findLast(({ at }) => holds(at, remark.at)) === subject).map(remarkTree);
  const loose = remarks.filter((remark) => !subjects.some(({ at }) => holds(at, remark.at)));
  const cards = subjects.map((subject) => subject.card(of(subject)).filter((tree) => tree !== CAUTION));
  return loose.length > 0 ? [...cards, loose.map(remarkTree)] : cards;
}

function holds(outer: SourceSpan, inner: SourceSpan): boolean {
  return inner.start >= outer.start && inner.start <= outer.end;
}

function subjectsOf(block: Block, model: WorkedNoteModel, lines: Lines): Subject[] {
  const { policy } = model;
  const here = ({ entity }: { readonly entity: Entity }) => entity.block === block;
  const place = ({ header, end }: Entity) => block.toSource({ start: header.start, end });
  return [
    ...model.mixtures.filter(here).map((mixture) => ({
      at: place(mixture.entity),
      card: (remarks: readonly Tree[]) =>
        mixtureInFull(mixture, model, lines, [...remarks, ...shows(block, mixture.entity, model)]),
    })),
    ...model.patients.filter(here).map((patient) => ({
      at: place(patient.entity),
      card: (remarks: readonly Tree[]) => [
        ...patientInFull(patient, model, lines),
        ...remarks,
        ...shows(block, patient.entity, model),
      ],
    })),
    ...model.orders.filter(here).map((order) => ({
      at: place(order.entity),
      card: (remarks: readonly Tree[]) =>
        orderInFull(order, model, lines, [...remarks, ...shows(block, order.entity, model)]),
    })),
    ...model.comparisons
      .filter((comparison) => comparison.block === block)
      .map((comparison) => ({
        at: block.toSource(comparison.node.span),
        card: (remarks: readonly Tree[]): readonly Tree[] => [
          { kind: 'heading', text: 'Side by side' },
          ...remarks,
          comparisonTable(comparison, policy.reference),
          comparisonFigure(comparison, policy.reference),
        ],
      })),
  ];
}

/** What the `show` lines of an entity answer. */
function shows(block: Block, { header, end }: Entity, { shows: all, policy }: WorkedNoteModel): Tree[] {
  const items = all
    .filter((show) => show.block === block && show.span.start >= header.start && show.span.end <= end)
    .map((show) => plain(`${show.shown[0]!.subject || 'Shown'}: ${shownText(show, policy.reference)}`));
  return items.length > 0 ? [{ kind: 'list', items }] : [];
}
