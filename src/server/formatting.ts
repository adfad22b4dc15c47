/** Formatting of a note, or of its blocks in a range. */
import {
  type Connection,
  DocumentFormattingRequest,
  DocumentRangeFormattingRequest,
  type InitializeParams,
  Range,
  type ServerCapabilities,
  TextEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Edit, WorkedNote } from '../service/types.ts';

interface Surroundings {
  readonly connection: Connection;
  /** The open note of that address, worked out; null when there is none. */
  openNoteAt(uri: string): Promise<{ readonly document: TextDocument; readonly note: WorkedNote } | null>;
  whenInitialized(then: () => void): void;
}

/** Answers requests; gives what is to be said of it when a client says hello. */
export function registerFormatting({
  connection,
  openNoteAt,
  whenInitialized,
}: Surroundings): (params: InitializeParams) => ServerCapabilities {
  connection.onDocumentFormatting(async ({ textDocument }) => {
    const found = await openNoteAt(textDocument.uri);
    return found ? found.note.formatting().map((edit) => toTextEdit(edit, found.document)) : null;
  });

  connection.onDocumentRangeFormatting(async ({ textDocument, range }) => {
    const found = Range.is(range) ? await openNoteAt(textDocument.uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const span = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
    return note.formatting(span).map((edit) => toTextEdit(edit, document));
  });

  return ({ capabilities }) => {
    const { formatting, rangeFormatting } = capabilities?.textDocument ?? {};
    if (!formatting?.dynamicRegistration || !rangeFormatting?.dynamicRegistration) {
      return { documentFormattingProvider: true, documentRangeFormattingProvider: true };
    }
    whenInitialized(() => registerForNotes(connection));
    return {};
  };
}

/** For notes alone: a policy, which the same client has open, is formatted by what its own language has. */
function registerForNotes(connection: Connection): void {
  const documentSelector = [{ language: 'markdown' }];
  void connection.client.register(DocumentFormattingRequest.type, { documentSelector });
  void connection.client.register(DocumentRangeFormattingRequest.type, { documentSelector });
}

function toTextEdit({ span, text }: Edit, document: TextDocument): TextEdit {
  return TextEdit.replace({ start: document.positionAt(span.start), end: document.positionAt(span.end) }, text);
}
