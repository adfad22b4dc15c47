/** Definitions, references, highlights, renaming, outline, folding and workspace symbols over the protocol. */
import {
  type Connection,
  type Definition,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentSymbol,
  ErrorCodes,
  type FoldingRange,
  type Location,
  Position,
  type Range,
  ResponseError,
  type ServerCapabilities,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { FoundName, NoteSymbol } from '../service/navigation/types.ts';
import type { OpenNote, OpenNotes } from './open-notes.ts';

export function navigationCapabilities({ preparesRenames }: NavigationClient): ServerCapabilities {
  return {
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    workspaceSymbolProvider: true,
    renameProvider: preparesRenames ? { prepareProvider: true } : true,
  };
}

/** What the other side takes. */
export interface NavigationClient {
  readonly nestedSymbols: boolean;
  readonly versionedEdits: boolean;
  readonly preparesRenames: boolean;
}

const kinds: Record<NoteSymbol['kind'], SymbolKind> = {
  mixture: SymbolKind.Object,
  stock: SymbolKind.Constant,
  substance: SymbolKind.Constant,
  patient: SymbolKind.Struct,
  order: SymbolKind.Event,
};

interface At {
  readonly textDocument: { readonly uri: string };
  readonly position: Position;
}

export function registerNavigation(connection: Connection, openNotes: OpenNotes, client: () => NavigationClient): void {
  async function nameAt({ textDocument, position }: At): Promise<(OpenNote & { name: FoundName }) | null> {
    const found = Position.is(position) ? await openNotes.at(textDocument.uri) : null;
    const name = found?.note.navigation.name(found.document.offsetAt(position));
    return found && name ? { ...found, name } : null;
  }

  connection.onDefinition(async (params): Promise<Definition | null> => {
    const found = await nameAt(params);
    return found?.name.places.filter(({ gives }) => gives).map(({ span }) => location(span, found.document)) ?? null;
  });

  connection.onReferences(async (params): Promise<Location[] | null> => {
    const found = await nameAt(params);
    const all = params.context?.includeDeclaration !== false;
    const places = found?.name.places.filter(({ gives }) => all || !gives);
    return places?.map(({ span }) => location(span, found!.document)) ?? null;
  });

  connection.onDocumentHighlight(async (params): Promise<DocumentHighlight[] | null> => {
    const found = await nameAt(params);
    if (!found) return null;
    return found.name.places.map(({ span, gives }) => ({
      range: rangeOf(span, found.document),
      kind: gives ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
  });

  connection.onPrepareRename(async (params) => {
    const found = await nameAt(params);
    return found && { range: rangeOf(found.name.span, found.document), placeholder: found.name.name };
  });

  connection.onRenameRequest(async ({ newName, ...params }): Promise<WorkspaceEdit | ResponseError | null> => {
    const found = await nameAt(params);
    if (!found || typeof newName !== 'string') return null;
    const { document, note } = found;
    const renaming = note.navigation.rename(document.offsetAt(params.position), newName);
    if (!renaming) return null;
    if (!renaming.ok) return new ResponseError(ErrorCodes.InvalidRequest, renaming.why);
    const { uri, version } = document;
    const edits = renaming.spans.map((span) => ({ range: rangeOf(span, document), newText: renaming.name }));
    return client().versionedEdits
      ? { documentChanges: [{ textDocument: { uri, version }, edits }] }
      : { changes: { [uri]: edits } };
  });

  connection.onDocumentSymbol(async ({ textDocument }): Promise<DocumentSymbol[] | SymbolInformation[] | null> => {
    const found = await openNotes.at(textDocument.uri);
    if (!found) return null;
    const symbols = found.note.navigation.symbols();
    return client().nestedSymbols
      ? symbols.map((symbol) => nestedSymbol(symbol, found.document))
      : symbols.map((symbol) => plainSymbol(symbol, found.document));
  });

  connection.onWorkspaceSymbol(async ({ query }): Promise<SymbolInformation[]> => {
    const wanted = typeof query === 'string' ? query.toLowerCase() : '';
    const notes = await Promise.all(openNotes.uris().map((uri) => openNotes.at(uri)));
    return notes.flatMap((found) => {
      const symbols = found?.note.navigation.symbols() ?? [];
      const fitting = symbols.filter(({ name, detail }) => `${name} ${detail}`.toLowerCase().includes(wanted));
      return fitting.map((symbol) => plainSymbol(symbol, found!.document));
    });
  });

  connection.onFoldingRanges(async ({ textDocument }): Promise<FoldingRange[] | null> => {
    const found = await openNotes.at(textDocument.uri);
    return found?.note.navigation.folds().map(({ first, last }) => ({ startLine: first, endLine: last })) ?? null;
  });
}

function nestedSymbol({ name, detail, kind, span, nameSpan }: NoteSymbol, document: TextDocument): DocumentSymbol {
  return {
    name,
    ...(detail && { detail }),
    kind: kinds[kind],
    range: rangeOf(span, document),
    selectionRange: rangeOf(nameSpan, document),
  };
}

function plainSymbol({ name, detail, kind, span }: NoteSymbol, document: TextDocument): SymbolInformation {
  return {
    name,
    ...(detail && { containerName: detail }),
    kind: kinds[kind],
    location: location(span, document),
  };
}

function location(span: SourceSpan, document: TextDocument): Location {
  return { uri: document.uri, range: rangeOf(span, document) };
}

function rangeOf({ start, end }: SourceSpan, document: TextDocument): Range {
  return { start: document.positionAt(start), end: document.positionAt(end) };
}
