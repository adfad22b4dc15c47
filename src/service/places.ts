/** Where the things of a note stand, and what they are made from. */
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Entity, WorkedNoteModel } from '../note/index.ts';
import type { Lines } from './lines.ts';

/** It and every mixture or stock of the note that it is made from. */
export function madeFrom(entity: Entity, { mentions }: WorkedNoteModel): ReadonlySet<Entity> {
  const found = new Set([entity]);
  for (const one of found) {
    const { start, end } = placeOf(one);
    for (const { at, of } of mentions) {
      if (of.kind === 'mixture' && at.start >= start && at.end <= end) found.add(of.entity);
    }
  }
  return found;
}

/** From its first line to its last. */
export function placeOf({ block, header, end }: Entity): SourceSpan {
  return block.toSource({ start: header.start, end });
}

/** Zero-based line of its header. */
export function lineOf({ block, header }: Entity, lines: Lines): number {
  return lines.at(block.toSource(header).start).line;
}
