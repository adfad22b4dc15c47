/** Quick fixes and rewritings over the protocol. Each is applied by itself and only when it is chosen. */
import {
  type CodeAction,
  CodeActionKind,
  type Connection,
  type Diagnostic as ProtocolDiagnostic,
  Range,
  type ServerCapabilities,
  type SnippetTextEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { CodeFix, Diagnostic } from '../service/types.ts';
import type { OpenNotes } from './open-notes.ts';

export const codeActionCapabilities: Pick<ServerCapabilities, 'codeActionProvider'> = {
  codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] },
};

/** What the other side takes. */
export interface CodeActionClient {
  readonly versionedEdits: boolean;
  /** Whether an edit may have places to fill in. */
  readonly snippetEdits: boolean;
}

interface Served {
  readonly connection: Connection;
  readonly openNotes: Pick<OpenNotes, 'at'>;
  client(): CodeActionClient;
  toProtocol(finding: Diagnostic, document: TextDocument): ProtocolDiagnostic;
}

export function registerCodeActions({ connection, openNotes, client, toProtocol }: Served): void {
  connection.onCodeAction(async ({ textDocument, range, context }): Promise<CodeAction[] | null> => {
    const found = Range.is(range) ? await openNotes.at(textDocument.uri) : null;
    if (!found) return null;
    const { document, note } = found;
    const span = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
    const asked = (kind: CodeActionKind) => !context?.only || context.only.some((only) => includes(only, kind));
    return [...note.fixes(span), ...note.offers(span)]
      .filter((fix) => asked(kindOf(fix)))
      .map((fix) => ({
        title: fix.title,
        kind: kindOf(fix),
        ...(fix.finding ? { diagnostics: [toProtocol(fix.finding, document)] } : {}),
        ...(fix.preferred ? { isPreferred: true } : {}),
        edit: editOf(fix, document, client()),
      }));
  });
}

function kindOf({ finding }: CodeFix): CodeActionKind {
  return finding ? CodeActionKind.QuickFix : CodeActionKind.RefactorRewrite;
}

/** An editor asks for a kind and all that begin with it. */
function includes(only: string, kind: CodeActionKind): boolean {
  return only === CodeActionKind.Empty || kind === only || kind.startsWith(`${only}.`);
}

function editOf({ edits, snippet }: CodeFix, document: TextDocument, client: CodeActionClient): WorkspaceEdit {
  const { uri, version } = document;
  const plain = edits.map(
    ({ span, text }): TextEdit => ({
      range: { start: document.positionAt(span.start), end: document.positionAt(span.end) },
      newText: text,
    }),
  );
  if (!client.versionedEdits) return { changes: { [uri]: plain } };
  const filled = client.snippetEdits && snippet !== null ? plain.map(({ range }) => snippetEdit(range, snippet)) : null;
  return { documentChanges: [{ textDocument: { uri, version }, edits: filled ?? plain }] };
}

function snippetEdit(range: Range, value: string): SnippetTextEdit {
  return { range, snippet: { kind: 'snippet', value } };
}
