/** Where in a note something is to be written: the block, the names it sees, and the entity that is open there. */
import { findStockFluid, type SubjectKind } from '../../engine/index.ts';
import type { Block } from '../../markdown/note-text.ts';
import { keyOf, type Span } from '../../notation/index.ts';
import type { Entity, ReadScope, WorkedMixture, WorkedNoteModel } from '../../note/index.ts';

export interface Scene {
  readonly model: WorkedNoteModel;
  readonly block: Block;
  readonly scope: ReadScope;
  /** The mixture, stock, substance, patient or order that a line here belongs to. */
  readonly open: Entity | null;
}

/** Null in a block that is left alone. */
export function sceneAt(model: WorkedNoteModel, block: Block, at: number): Scene | null {
  const scope = model.scopes.find(({ blocks }) => blocks.includes(block));
  return scope ? { model, block, scope, open: openAt(scope, block, at) } : null;
}

function openAt(scope: ReadScope, block: Block, at: number): Entity | null {
  const line = block.text.lastIndexOf('\n', at - 1) + 1;
  const open = scope.entities.findLast((entity) => entity.block === block && entity.header.start < line);
  const ended = scope.loose.some(
    ({ node, block: of }) =>
      of === block && node.kind === 'compare' && node.span.start < line && node.span.start > (open?.header.start ?? -1),
  );
  return open && !ended ? open : null;
}

export function mixtureOf({ model }: Scene, entity: Entity | null): WorkedMixture | null {
  return model.mixtures.find((mixture) => mixture.entity === entity) ?? null;
}

/** Names of the scope that can be meant, of these kinds, in the order of the note. */
export function named({ scope }: Scene, ...kinds: readonly Entity['kind'][]): readonly Entity[] {
  return scope.entities.filter(
    (entity) => kinds.includes(entity.kind) && entity.name && scope.names.get(entity.name.key) === entity,
  );
}

/** What a question is asked of. */
export interface Asked {
  /** Null for a fluid that is none of the note's own names. */
  readonly entity: Entity | null;
  readonly is: SubjectKind;
}

export function askedOf(entity: Entity | null): Asked | null {
  switch (entity?.kind) {
    case 'mixture':
    case 'stock':
      return { entity, is: 'mixture' };
    case 'give':
      return { entity, is: 'order' };
    case 'patient':
      return { entity, is: 'patient' };
    default:
      return null;
  }
}

/** The subject that the first words of a span name, and where the rest begins; the longest name counts. */
export function subjectIn({ block, scope }: Scene, { start, end }: Span): { asked: Asked; rest: number } | null {
  const text = block.text.slice(start, end);
  const ends = [...text.matchAll(/\s+/g)].reverse();
  for (const { index, 0: space } of ends) {
    const key = keyOf(text.slice(0, index));
    const own = scope.names.get(key);
    const asked = own && own !== 'duplicate' ? askedOf(own) : findStockFluid(key) ? FLUID : null;
    if (asked) return { asked, rest: start + index + space.length };
  }
  return null;
}

export const FLUID: Asked = { entity: null, is: 'mixture' };
