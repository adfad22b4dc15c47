/** Answers what brings a note's bound numbers and tables up to date; the client applies it, and only when asked to. */
import type { Connection, TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { WorkedNote } from '../service/types.ts';

/** For `{ uri }`; null for a note that is not open. */
export const updatesRequest = 'meniscus/updates';

interface Updates {
  /** Of the text that the edits are for. */
  readonly version: number;
  readonly edits: readonly TextEdit[];
}

interface Served {
  readonly connection: Connection;
  openNoteAt(uri: string): Promise<{ readonly document: TextDocument; readonly note: WorkedNote } | null>;
}

export function registerUpdates({ connection, openNoteAt }: Served): void {
  connection.onRequest(updatesRequest, async (params: { readonly uri?: unknown } | null): Promise<Updates | null> => {
    const uri = params?.uri;
    const found = typeof uri === 'string' ? await openNoteAt(uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const edits = note.updates().map(({ span, text }) => ({
      range: { start: document.positionAt(span.start), end: document.positionAt(span.end) },
      newText: text,
    }));
    return { version: document.version, edits };
  });
}
