/** Findings that a client asks for, instead of being sent them. */
import {
  type Connection,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type FullDocumentDiagnosticReport,
  type Diagnostic as ProtocolDiagnostic,
  type ServerCapabilities,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Diagnostic } from '../service/types.ts';
import type { Client } from './client.ts';
import { OpenDocument } from './open-document.ts';
import type { OpenNote } from './open-notes.ts';
import { type FoundPolicy, isPolicy } from './policies.ts';

interface Asked {
  readonly connection: Connection;
  readonly documents: { get(uri: string): TextDocument | undefined };
  openNoteAt(uri: string): Promise<OpenNote | null>;
  client(): Client;
  /** The policy that an open note is worked out under. */
  policyOf(uri: string): Promise<FoundPolicy | null>;
  findingsOfPolicy(uri: string, text: string): readonly Diagnostic[];
  toProtocol(finding: Diagnostic, document: TextDocument): ProtocolDiagnostic;
}

export interface Pull {
  /** None for a client that does not ask. */
  capabilities(): ServerCapabilities;
  /** Has the client ask again after so many milliseconds, because of another file than the one that was changed. */
  refresh(delay: number): void;
}

export function registerPull({ connection, documents, client, toProtocol, ...asked }: Asked): Pull {
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const full = (found: readonly Diagnostic[], document: TextDocument): FullDocumentDiagnosticReport => ({
    kind: DocumentDiagnosticReportKind.Full,
    items: found.map((finding) => toProtocol(finding, document)),
  });

  /** The findings of a policy that is not open come with those of a note it is for. */
  async function ofPolicy(note: string): Promise<Record<string, FullDocumentDiagnosticReport>> {
    const policy = client().relatedFindings ? await asked.policyOf(note) : null;
    if (!policy || documents.get(policy.uri)) return {};
    const document = new OpenDocument(policy.uri, 'json', 0, policy.text, client().encoding);
    return { [policy.uri]: full(asked.findingsOfPolicy(policy.uri, policy.text), document) };
  }

  connection.languages.diagnostics.on(async ({ textDocument: { uri } }): Promise<DocumentDiagnosticReport> => {
    const policy = isPolicy(String(uri)) ? documents.get(uri) : undefined;
    if (policy) return full(asked.findingsOfPolicy(uri, policy.getText()), policy);
    const found = await asked.openNoteAt(uri);
    if (!found) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const report = full(found.note.diagnostics(), found.document);
    const relatedDocuments = await ofPolicy(uri);
    return Object.keys(relatedDocuments).length > 0 ? { ...report, relatedDocuments } : report;
  });

  return {
    capabilities: () =>
      client().pulls
        ? { diagnosticProvider: { identifier: 'meniscus', interFileDependencies: true, workspaceDiagnostics: false } }
        : {},
    refresh(delay) {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        if (client().refreshesFindings) void connection.languages.diagnostics.refresh();
        if (client().refreshesInlayHints) void connection.languages.inlayHint.refresh();
      }, delay);
    },
  };
}
