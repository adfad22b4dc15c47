/** The notes that are open, as the features of the server ask for them. */
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { WorkedNote } from '../service/types.ts';

export interface OpenNote {
  readonly document: TextDocument;
  readonly note: WorkedNote;
}

export interface OpenNotes {
  /** Worked out; null where none of that address is open. */
  at(uri: string): Promise<OpenNote | null>;
  uris(): readonly string[];
}
