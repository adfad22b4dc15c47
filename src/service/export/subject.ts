/** The order or mixture that a name means, or in words why it is not written out. */
import { nearAmong } from '../../engine/index.ts';
import { keyOf } from '../../notation/index.ts';
import type { Entity, WorkedMixture, WorkedNoteModel, WorkedOrder } from '../../note/index.ts';
import type { Lines } from '../lines.ts';
import { lineOf } from '../places.ts';

export type Subject =
  | { readonly kind: 'order'; readonly order: WorkedOrder }
  | { readonly kind: 'mixture'; readonly mixture: WorkedMixture };

/** `reason` is a clause without a capital letter or a full stop. */
export function subjectOf(
  { orders, mixtures, scopes, unreadOrders }: WorkedNoteModel,
  name: string,
  lines: Lines,
): Subject | { readonly reason: string } {
  const key = keyOf(name);
  const made = mixtures.filter(({ entity }) => entity.kind === 'mixture');
  const called = ({ entity }: { readonly entity: Entity }) => entity.name?.key === key;
  const found: readonly Subject[] = [
    ...orders.filter(called).map((order) => ({ kind: 'order' as const, order })),
    ...made.filter(called).map((mixture) => ({ kind: 'mixture' as const, mixture })),
  ];
  const [first, ...others] = found;
  if (first && others.length === 0) return first;
  if (first) {
    const places = found.map((subject) => lineOf(entityOf(subject), lines) + 1).join(', ');
    return { reason: `‘${name}’ is the name of several (lines ${places}); which is meant cannot be known` };
  }
  if (unreadOrders.some((entity) => entity.name?.key === key))
    return { reason: `the order ‘${name}’ could not be read` };
  if (mixtures.some(called)) return { reason: `‘${name}’ is a stock; an order that gives it can be exported` };
  if (scopes.some(({ imported }) => imported.includes(key)))
    return { reason: `‘${name}’ is given by another note; export it from there` };
  const near = nearAmong(
    key,
    [...orders, ...made].flatMap(({ entity }) => entity.name?.text ?? []),
  );
  const proposed = near.length > 0 ? `; did you mean ${near.map((one) => `‘${one}’`).join(' or ')}?` : '';
  return { reason: `the note has no order or mixture ‘${name}’${proposed || unnamed(orders, lines)}` };
}

export function entityOf(subject: Subject): Entity {
  return subject.kind === 'order' ? subject.order.entity : subject.mixture.entity;
}

function unnamed(orders: readonly WorkedOrder[], lines: Lines): string {
  const places = orders.filter(({ name }) => name === '').map(({ entity }) => lineOf(entity, lines) + 1);
  const [first, second] = places;
  if (first === undefined) return '';
  const where = second === undefined ? `line ${first} has` : `line ${first} and others have`;
  return `; the order of ${where} no name, which ‘as NAME’ at its end gives it`;
}
