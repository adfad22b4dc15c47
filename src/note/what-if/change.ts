/** What a `what if` line takes otherwise: a figure of a patient, a mixture or an order, as it is written and as it is not. */
import { isRate, isVolume, type Unit } from '../../engine/index.ts';
import type { GiveNode, PropertyNode, QuantityNode, Span, Statement, WithdrawNode, Words } from '../../notation/ast.ts';
import { keyOf } from '../../notation/index.ts';
import type { Wanted } from '../faults.ts';
import type { Entity } from '../model.ts';
import { wordStarts } from '../observable-reader.ts';
import { patientFigure } from '../orders/patients.ts';
import { isStep } from '../steps.ts';

/** A figure that can be taken otherwise, by its words. */
interface Figure {
  readonly of: 'patient' | 'mixture' | 'give';
  readonly wanted: Wanted;
  readonly fits: readonly string[];
  suits(unit: Unit): boolean;
  /** As the entity has it; null where it is not written, 'several' where it stands more than once. */
  written(entity: Entity): QuantityNode | 'several' | null;
  /** The entity with the figure put in place of what is written, or beside it. */
  taken(entity: Entity, value: QuantityNode, words: Words): Entity;
}

export interface Changed {
  readonly figure: Figure;
  /** As written: `weight`. */
  readonly words: Words;
  /** The name before them. */
  readonly name: Span | null;
}

/** Splits words into a name and the longest run that is a figure; null where none is. */
export function changeIn(text: string, { span }: Words): Changed | null {
  for (const start of wordStarts(text, span)) {
    const at = { start, end: span.end };
    const written = text.slice(start, span.end);
    const key = keyOf(written);
    const figure = figureOf(key);
    if (!figure) continue;
    const name = start > span.start ? { start: span.start, end: start } : null;
    return { figure, words: { span: at, text: written, key }, name };
  }
  return null;
}

function figureOf(key: string): Figure | null {
  if (key === 'withdraw' || key === 'discard') return WITHDRAWN;
  if (key === 'at') return RATE;
  if (key === 'over' || key === 'for') return TIME;
  const patient = patientFigure(key);
  if (!patient) return null;
  const { fact, fits, suits } = patient;
  const isLine = (node: Statement): node is PropertyNode =>
    node.kind === 'property' && patientFigure(node.items[0].words.key)?.fact === fact;
  return {
    of: 'patient',
    wanted: 'patient-value',
    fits,
    suits,
    written: ({ body }) => one(body.filter(isLine).map(({ items }) => items[0].quantity)),
    taken: (entity, quantity, words) => {
      const { span } = quantity;
      const node: PropertyNode = { kind: 'property', span, line: 0, items: [{ words, quantity }] };
      return { ...entity, body: [...entity.body.filter((line) => !isLine(line)), node] };
    },
  };
}

/** A volume withdrawn where the mixture withdraws, else right after its first step. */
const WITHDRAWN: Figure = {
  of: 'mixture',
  wanted: 'volume',
  fits: ['mL', 'L'],
  suits: isVolume,
  written: ({ body }) => {
    const amounts = body.filter(withdraws).map(({ amount }) => amount);
    const known = amounts.filter(({ kind }) => kind === 'quantity') as QuantityNode[];
    return known.length < amounts.length ? 'several' : one(known);
  },
  taken: (entity, amount) => {
    const { body } = entity;
    const at = body.findIndex(withdraws);
    const node: WithdrawNode = { kind: 'withdraw', span: amount.span, line: 0, amount };
    if (at >= 0) return { ...entity, body: body.with(at, node) };
    return { ...entity, body: body.toSpliced(body.findIndex(isStep) + 1, 0, node) };
  },
};

const RATE: Figure = {
  of: 'give',
  wanted: 'order-rate',
  fits: ['mL/h', 'mL/kg/h'],
  suits: isRate,
  written: ({ give }) => give?.rate ?? null,
  taken: (entity, rate) => ordered(entity, (give) => ({ ...give, rate })),
};

const TIME: Figure = {
  of: 'give',
  wanted: 'order-time',
  fits: ['min', 'h', 'd'],
  suits: ({ dimension }) => dimension.over === 'time' && dimension.under.length === 0,
  written: ({ give }) => {
    const clause = give?.clauses.find(({ kind }) => kind === 'duration');
    return clause?.kind === 'duration' ? clause.time : null;
  },
  taken: (entity, time) =>
    ordered(entity, (give) => ({
      ...give,
      clauses: [...give.clauses.filter(({ kind }) => kind !== 'duration'), { kind: 'duration', span: time.span, time }],
    })),
};

function withdraws(node: Statement): node is WithdrawNode {
  return node.kind === 'withdraw';
}

function ordered(entity: Entity, change: (give: GiveNode) => GiveNode): Entity {
  return entity.give ? { ...entity, give: change(entity.give) } : entity;
}

function one(figures: readonly QuantityNode[]): QuantityNode | 'several' | null {
  return figures.length > 1 ? 'several' : (figures[0] ?? null);
}
