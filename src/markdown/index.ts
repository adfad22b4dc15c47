export { mayHoldBlocks, NoteReader, readNote, withoutHead } from './note-reader.ts';
export type { Block } from './note-text.ts';
