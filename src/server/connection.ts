/** The Language Server Protocol in and out: one connection, one note service, the open notes. No Node, no worker. */
import {
  type Connection,
  DiagnosticSeverity,
  type Hover,
  type InitializeParams,
  type InitializeResult,
  type InlayHint,
  MarkupKind,
  Position,
  PositionEncodingKind,
  type Diagnostic as ProtocolDiagnostic,
  Range,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Diagnostic, NoteService, Severity, WorkedNote } from '../service/types.ts';

/** How long typing must rest before a changed note's findings are shown, in milliseconds. */
const typingRest = 150;

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** What the other side can do, as far as it changes what we send. */
interface Client {
  /** The folder of the findings' pages as a URI without a final slash, or null when no page can be reached. */
  readonly docsBase: string | null;
  readonly relatedInformation: boolean;
  readonly refreshesInlayHints: boolean;
}

/**
 * Answers on `connection` with what `service` knows, until the connection ends.
 *
 * Findings are pushed once typing rests, carry the version they were made from and are dropped when a newer one has
 * come in the meantime; those shown before stay until then. A request about a note that is not open, or at no position,
 * is answered with null.
 */
export function serve(connection: Connection, service: NoteService): void {
  const notes = new TextDocuments<TextDocument>({ create: openNote, update: TextDocument.update });
  const worked = new Map<string, { readonly version: number; readonly note: WorkedNote }>();
  const resting = new Map<string, ReturnType<typeof setTimeout>>();
  let client: Client = { docsBase: null, relatedInformation: false, refreshesInlayHints: false };

  function work(document: TextDocument): WorkedNote {
    const known = worked.get(document.uri);
    if (known?.version === document.version) return known.note;
    const note = service.work(document.uri, document.getText());
    worked.set(document.uri, { version: document.version, note });
    return note;
  }

  function checkAfter(delay: number, document: TextDocument): void {
    clearTimeout(resting.get(document.uri));
    resting.set(
      document.uri,
      setTimeout(() => check(document), delay),
    );
  }

  /** Works the note out, then lets waiting messages in: when one has brought a newer version, this result falls. */
  function check(document: TextDocument): void {
    const { uri, version } = document;
    try {
      const found = work(document).diagnostics();
      afterWaitingMessages(() => {
        if (notes.get(uri) !== document || document.version !== version) return;
        publish(document, found);
        if (client.refreshesInlayHints) void connection.languages.inlayHint.refresh();
      });
    } catch (error) {
      connection.console.error(`${uri}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
    }
  }

  function publish(document: TextDocument, found: readonly Diagnostic[]): void {
    const diagnostics = found.map((finding) => toProtocol(finding, document, client));
    void connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics });
  }

  connection.onInitialize((params): InitializeResult => {
    client = readClient(params);
    return {
      serverInfo: { name: 'Meniscus' },
      capabilities: {
        positionEncoding: PositionEncodingKind.UTF16,
        textDocumentSync: TextDocumentSyncKind.Incremental,
        hoverProvider: true,
        inlayHintProvider: true,
      },
    };
  });

  notes.onDidChangeContent(({ document }) => {
    checkAfter(worked.has(document.uri) ? typingRest : 0, document);
  });

  notes.onDidClose(({ document }) => {
    clearTimeout(resting.get(document.uri));
    resting.delete(document.uri);
    worked.delete(document.uri);
    service.forget(document.uri);
    publish(document, []);
  });

  connection.onHover(({ textDocument, position }): Hover | null => {
    const document = notes.get(textDocument.uri);
    if (!document || !Position.is(position)) return null;
    const card = work(document).hover(document.offsetAt(position));
    if (!card) return null;
    return { contents: { kind: MarkupKind.Markdown, value: card.markdown }, range: toRange(card.span, document) };
  });

  connection.languages.inlayHint.on(({ textDocument, range }): InlayHint[] | null => {
    const document = notes.get(textDocument.uri);
    if (!document || !Range.is(range)) return null;
    const span = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
    const results = work(document).results(span);
    return results.map(({ offset, text, tooltip }) => ({
      position: document.positionAt(offset),
      label: text,
      paddingLeft: true,
      ...(tooltip === null ? {} : { tooltip }),
    }));
  });

  notes.listen(connection);
  connection.listen();
}

/** Runs `then` once what has already arrived is read: in Node that takes the event loop one full turn. */
function afterWaitingMessages(then: () => void): void {
  if (typeof setImmediate === 'function') setImmediate(() => setImmediate(then));
  else setTimeout(then, 0);
}

/** Refuses what is no note, so that a malformed message leaves nothing half open. */
function openNote(uri: string, languageId: string, version: number, text: string): TextDocument {
  if (typeof uri !== 'string' || typeof text !== 'string') throw new TypeError('An opened note has a URI and a text.');
  return TextDocument.create(uri, languageId, version, text);
}

function readClient({ capabilities, initializationOptions }: InitializeParams): Client {
  const docsBase: unknown = initializationOptions?.docsBase;
  return {
    docsBase: typeof docsBase === 'string' ? docsBase.replace(/\/$/, '') : null,
    relatedInformation: capabilities?.textDocument?.publishDiagnostics?.relatedInformation === true,
    refreshesInlayHints: capabilities?.workspace?.inlayHint?.refreshSupport === true,
  };
}

function toRange(span: SourceSpan, document: TextDocument): Range {
  return { start: document.positionAt(span.start), end: document.positionAt(span.end) };
}

function toProtocol(finding: Diagnostic, document: TextDocument, client: Client): ProtocolDiagnostic {
  const related = client.relatedInformation ? finding.related : [];
  return {
    range: toRange(finding.span, document),
    severity: severities[finding.severity],
    source: 'Meniscus',
    code: finding.code,
    ...(client.docsBase === null ? {} : { codeDescription: { href: `${client.docsBase}/${finding.code}.md` } }),
    message: finding.message,
    ...(related.length === 0
      ? {}
      : {
          relatedInformation: related.map(({ span, message }) => ({
            location: { uri: document.uri, range: toRange(span, document) },
            message,
          })),
        }),
  };
}
