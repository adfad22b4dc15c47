/** Completion over the protocol. */
import {
  type CancellationToken,
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  type Connection,
  InsertTextFormat,
  InsertTextMode,
  Position,
  type ServerCapabilities,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Completion, CompletionKind } from '../service/completion/types.ts';
import type { OpenNotes } from './open-notes.ts';

/**
 * Editors do not complete Markdown while words are typed, so a list opens behind characters after which something is
 * wanted: a space, which comes before each word of a line and goes on with a name of several; `/` in a unit, a path and a
 * link's target; a colon, which may be that of a link's `infusion:`; a backtick where a fence may begin. Digits and `%` are left out: behind them a line may as well end.
 */
export const completionCapabilities: Pick<ServerCapabilities, 'completionProvider'> = {
  completionProvider: { triggerCharacters: [' ', '/', ':', '`'] },
};

const kinds: Record<CompletionKind, CompletionItemKind> = {
  word: CompletionItemKind.Keyword,
  block: CompletionItemKind.Snippet,
  mixture: CompletionItemKind.Variable,
  stock: CompletionItemKind.Variable,
  substance: CompletionItemKind.Variable,
  fluid: CompletionItemKind.Value,
  solute: CompletionItemKind.Constant,
  unit: CompletionItemKind.Unit,
  observable: CompletionItemKind.Property,
  patient: CompletionItemKind.Reference,
  order: CompletionItemKind.Event,
  route: CompletionItemKind.EnumMember,
  code: CompletionItemKind.Text,
  note: CompletionItemKind.File,
};

interface Served {
  readonly connection: Connection;
  readonly openNotes: Pick<OpenNotes, 'at'>;
  /** Whether the client fills in places. */
  snippets(): boolean;
  /** Paths of other notes, as they are written in that one. */
  pathsFrom(uri: string, token: CancellationToken): Promise<readonly string[]>;
}

export function registerCompletion({ connection, openNotes, snippets, pathsFrom }: Served): void {
  connection.onCompletion(async ({ textDocument, position, context }, token): Promise<CompletionList | null> => {
    const found = Position.is(position) ? await openNotes.at(textDocument.uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const [at, typed] = [document.offsetAt(position), context?.triggerCharacter ?? null];
    const first = note.complete(at, typed);
    const { items, cut } = first.wantsPaths
      ? note.complete(at, typed, await pathsFrom(textDocument.uri, token))
      : first;
    return {
      isIncomplete: cut,
      items: items.map((item, index) => toItem(item, index, document, snippets())),
    };
  });
}

function toItem(item: Completion, index: number, document: TextDocument, snippets: boolean): CompletionItem {
  const { label, kind, filter, detail, documentation, span } = item;
  const filled = snippets ? item.snippet : undefined;
  const range = { start: document.positionAt(span.start), end: document.positionAt(span.end) };
  return {
    label,
    kind: kinds[kind],
    filterText: filter,
    sortText: String(index).padStart(4, '0'),
    ...(detail && { detail }),
    ...(documentation && { documentation }),
    textEdit: { range, newText: filled ?? item.text },
    // The lines of a snippet bring the margin of their block with them.
    ...(filled && { insertTextFormat: InsertTextFormat.Snippet, insertTextMode: InsertTextMode.asIs }),
  };
}
