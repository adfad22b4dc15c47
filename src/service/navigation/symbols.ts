/** The outline of a note: what its blocks declare, and which lines belong to each. */
import { formatQuantity } from '../../engine/index.ts';
import { readNote } from '../../markdown/index.ts';
import { declaredIn, type Entity, type WorkedNoteModel } from '../../note/index.ts';
import type { Lines } from '../lines.ts';
import type { Navigation, NoteSymbol } from './types.ts';

export function symbolsOf(model: WorkedNoteModel): readonly NoteSymbol[] {
  const volumes = new Map(
    model.mixtures.map(({ entity, contents }) => [entity, contents ? formatQuantity(contents.volume, 'mL') : '']),
  );
  return entitiesOf(model).map((entity) => symbolOf(entity, volumes.get(entity) ?? ''));
}

/** Of a note that is not worked out, and so without volumes. */
export function outlineOf(source: string): readonly NoteSymbol[] {
  return declaredIn(readNote(source)).map((entity) => symbolOf(entity, ''));
}

function symbolOf({ kind, name, title, give, block, header, end }: Entity, volume: string): NoteSymbol {
  const fluid = give ? block.text.slice(give.fluid.span.start, give.fluid.span.end) : '';
  return {
    kind: kind === 'give' ? 'order' : kind,
    name: name?.text || (give ? `give ${fluid}` : kind),
    detail: [title?.text, kind === 'mixture' && volume, name && fluid].filter(Boolean).join(', '),
    span: block.toSource({ start: header.start, end }),
    nameSpan: block.toSource(name?.span ?? header),
  };
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
