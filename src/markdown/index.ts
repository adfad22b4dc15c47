export { mayHoldBlocks } from './may-hold-blocks.ts';
export { NoteReader, readNote, withoutHead } from './note-reader.ts';
export type { Block } from './note-text.ts';
