export { NoteReader, readNote } from './note-reader.ts';
export type { Block } from './note-text.ts';
