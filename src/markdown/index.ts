export { NoteReader, readNote } from './note-reader.ts';
export type { Block, BlockMode, NoteText, SourceSpan } from './note-text.ts';
