/** Findings and results of a note as the protocol has them. */
import {
  DiagnosticSeverity,
  type InlayHint,
  type Diagnostic as ProtocolDiagnostic,
  type Range,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Diagnostic, InlineResult, Severity } from '../service/types.ts';
import type { Client } from './client.ts';

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export function toRange(span: SourceSpan, document: TextDocument): Range {
  return { start: document.positionAt(span.start), end: document.positionAt(span.end) };
}

export function toProtocol(
  finding: Diagnostic,
  document: TextDocument,
  client: Pick<Client, 'relatedInformation' | 'docsBase'>,
): ProtocolDiagnostic {
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

export function toHint({ offset, text, tooltip }: InlineResult, document: TextDocument): InlayHint {
  return {
    position: document.positionAt(offset),
    label: text,
    paddingLeft: true,
    ...(tooltip === null ? {} : { tooltip }),
  };
}
