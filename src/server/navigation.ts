/** Definitions, references, highlights, links, renaming, outline, folding and workspace symbols over the protocol. */
import {
  type CancellationToken,
  type Connection,
  type Definition,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentLink,
  type DocumentSymbol,
  ErrorCodes,
  type FoldingRange,
  type Location,
  LSPErrorCodes,
  Position,
  type Range,
  ResponseError,
  type ServerCapabilities,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { FoundName, NoteSymbol } from '../service/navigation/types.ts';
import type { OpenNote, OpenNotes } from './open-notes.ts';
import type { ClosedNote } from './workspace-notes.ts';

export function navigationCapabilities({ preparesRenames }: NavigationClient): ServerCapabilities {
  return {
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    documentLinkProvider: {},
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

interface Served {
  readonly connection: Connection;
  readonly openNotes: OpenNotes;
  client(): NavigationClient;
  /** Notes of the workspace that are not open. */
  closedNotes(token: CancellationToken): Promise<readonly ClosedNote[]>;
}

/** How many symbols of the workspace are given at most: an editor asks again as more is typed. */
const MOST_SYMBOLS = 1000;

export function registerNavigation({ connection, openNotes, client, closedNotes }: Served): void {
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

  connection.onDocumentLinks(async ({ textDocument }): Promise<DocumentLink[] | null> => {
    const found = await openNotes.at(textDocument.uri);
    if (!found) return null;
    const { document, note } = found;
    return note.navigation.links().map(({ span, to }) => {
      const { line, character } = document.positionAt(to.start);
      // The line and column that editors read behind an address, counted from one.
      return { range: rangeOf(span, document), target: `${document.uri}#L${line + 1},${character + 1}` };
    });
  });

  connection.onPrepareRename(async (params) => {
    const found = await nameAt(params);
    if (!found) return null;
    const { document, name } = found;
    const at = document.offsetAt(params.position);
    const isOnName = name.span.start <= at && at <= name.span.end;
    return isOnName ? { range: rangeOf(name.span, document), placeholder: name.name } : null;
  });

  connection.onRenameRequest(async ({ newName, ...params }): Promise<WorkspaceEdit | ResponseError | null> => {
    const found = await nameAt(params);
    if (!found || typeof newName !== 'string') return null;
    const { document, note } = found;
    const renaming = note.navigation.rename(document.offsetAt(params.position), newName);
    if (!renaming) return null;
    if (!renaming.ok) return new ResponseError(ErrorCodes.InvalidRequest, renaming.why);
    const { uri, version } = document;
    const edits = renaming.edits.map(({ span, text }) => ({ range: rangeOf(span, document), newText: text }));
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

  connection.onWorkspaceSymbol(async ({ query }, token): Promise<SymbolInformation[] | ResponseError> => {
    const wanted = typeof query === 'string' ? query.toLowerCase() : '';
    const fits = ({ name, detail }: NoteSymbol) => `${name} ${detail}`.toLowerCase().includes(wanted);
    const open = await Promise.all(openNotes.uris().map((uri) => openNotes.at(uri)));
    const symbols = open.flatMap((found) => {
      const own = found?.note.navigation.symbols() ?? [];
      return own.filter(fits).map((symbol) => plainSymbol(symbol, found!.document));
    });
    for (const { uri, text, symbols: declared } of await closedNotes(token)) {
      if (symbols.length >= MOST_SYMBOLS) break;
      const fitting = declared.filter(fits);
      const document = TextDocument.create(uri, 'markdown', 0, fitting.length > 0 ? text : '');
      symbols.push(...fitting.map((symbol) => plainSymbol(symbol, document)));
    }
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
    return symbols.slice(0, MOST_SYMBOLS);
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
