/** The findings of a worked note, and of a policy, as the editor and the reports take them. */
import { type Findings, findingsOf } from '../checks/findings.ts';
import { type Finding, findingOf, messageOf, type Severity } from '../checks/index.ts';
import type { LocatedPolicyFault, WorkedNoteModel } from '../note/index.ts';
import { wordingInTerms } from './terms.ts';
import type { Diagnostic } from './types.ts';

/** Those that the note does not accept. */
export function diagnosticsOf(model: WorkedNoteModel, { open }: Findings = findingsOf(model)): readonly Diagnostic[] {
  const { terms } = model.policy;
  return open.map((finding) =>
    diagnosticOf({ ...finding, wording: wordingInTerms(finding.wording, terms) }, finding.severity),
  );
}

export function policyDiagnosticsOf(faults: readonly LocatedPolicyFault[]): readonly Diagnostic[] {
  return faults.map((located) => {
    const finding = findingOf(located);
    return diagnosticOf(finding, finding.severity);
  });
}

function diagnosticOf({ code, at, wording, other }: Finding, severity: Severity): Diagnostic {
  const { read, why, mend, source } = wording;
  return {
    code,
    severity,
    span: at,
    message: messageOf(wording),
    parts: { read, why, mend, source: source ?? null },
    related: other ? [{ span: other.at, message: other.words }] : [],
  };
}
