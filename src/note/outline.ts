/** What the blocks of a note declare, without anything being worked out. */
import type { NoteText } from '../markdown/note-text.ts';
import { parseBlock } from '../notation/index.ts';
import type { Entity } from './model.ts';
import { gatherBlock } from './scope.ts';

/** In the order of the note. */
export function declaredIn({ blocks }: NoteText): readonly Entity[] {
  return blocks
    .filter(({ mode }) => mode !== 'skip')
    .flatMap((block) => gatherBlock({ block, syntax: parseBlock(block.text) }, []).entities);
}
