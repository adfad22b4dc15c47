/** The outline of a note: what its blocks declare, and which lines belong to each. */
import { formatQuantity } from '../../engine/index.ts';
import type { Entity, WorkedNoteModel } from '../../note/index.ts';
import type { Lines } from '../lines.ts';
import type { Navigation, NoteSymbol } from './types.ts';

export function symbolsOf(model: WorkedNoteModel): readonly NoteSymbol[] {
  const volumes = new Map(
    model.mixtures.map(({ entity, contents }) => [entity, contents ? formatQuantity(contents.volume, 'mL') : '']),
  );
  return entitiesOf(model).map((entity) => {
    const { kind, name, title, give, block } = entity;
    const fluid = give ? block.text.slice(give.fluid.span.start, give.fluid.span.end) : '';
    const volume = kind === 'mixture' ? (volumes.get(entity) ?? '') : '';
    return {
      kind: kind === 'give' ? 'order' : kind,
      name: name?.text || (give ? `give ${fluid}` : kind),
      detail: [title?.text, volume, name && fluid].filter(Boolean).join(', '),
      span: block.toSource({ start: entity.header.start, end: entity.end }),
      nameSpan: block.toSource(name?.span ?? entity.header),
    };
  });
}

export function foldsOf(model: WorkedNoteModel, lines: Lines): ReturnType<Navigation['folds']> {
  return entitiesOf(model).flatMap(({ block, header, end }) => {
    const { start, end: last } = block.toSource({ start: header.start, end });
    const fold = { first: lines.at(start).line, last: lines.at(last).line };
    return fold.last > fold.first ? [fold] : [];
  });
}

/** Those that stand in this note's own blocks, in its order. */
function entitiesOf({ scopes }: WorkedNoteModel): readonly Entity[] {
  return scopes
    .flatMap(({ blocks, entities }) => entities.filter(({ block }) => blocks.includes(block)))
    .sort((a, b) => a.block.toSource(a.header).start - b.block.toSource(b.header).start);
}
