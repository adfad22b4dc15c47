/** The findings of a worked note, and of a policy, as the editor and the reports take them. */
import { type Findings, findingsOf } from '../checks/findings.ts';
import { type Finding, findingOf, messageOf, type Severity } from '../checks/index.ts';
import type { LocatedPolicyFault, Policy, WorkedNoteModel } from '../note/index.ts';
import { oneLine } from '../render/index.ts';
import { wordingInTerms } from './terms.ts';
import type { Diagnostic } from './types.ts';

/** Those that the note does not accept. */
export function diagnosticsOf(model: WorkedNoteModel, { open }: Findings = findingsOf(model)): readonly Diagnostic[] {
  return open.map((finding) => inTermsOf(model.policy, finding));
}

/** Those that the note accepts, with its reasons. */
export function acceptedOf(
  { policy }: WorkedNoteModel,
  { accepted }: Findings,
): readonly { readonly diagnostic: Diagnostic; readonly reason: string }[] {
  return accepted.map(({ finding, reason }) => ({ diagnostic: inTermsOf(policy, finding), reason }));
}

export function policyDiagnosticsOf(faults: readonly LocatedPolicyFault[]): readonly Diagnostic[] {
  return faults.map((located) => {
    const finding = findingOf(located);
    return diagnosticOf(finding, finding.severity);
  });
}

function inTermsOf({ terms }: Policy, finding: Finding): Diagnostic {
  return diagnosticOf({ ...finding, wording: wordingInTerms(finding.wording, terms) }, finding.severity);
}

function diagnosticOf({ code, at, wording, other }: Finding, severity: Severity): Diagnostic {
  const { read, why, mend, source } = wording;
  return {
    code,
    severity,
    span: at,
    message: saidOf(messageOf(wording)),
    parts: { read: saidOf(read), why: saidOf(why), mend: saidOf(mend), source: source ? saidOf(source) : null },
    related: other ? [{ span: other.at, message: saidOf(other.words) }] : [],
  };
}

/** Words of the note stand in what is said: whoever shows them may obey what they hold, and has room for a few. */
export function saidOf(words: string): string {
  return oneLine(words).replace(/‘([^’]{100})[^’]{20,}’/g, '‘$1…’');
}
