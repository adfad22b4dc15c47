/** The findings of a worked note, and of a policy, as the editor and the reports take them. */
import { type Findings, findingsOf } from '../checks/findings.ts';
import { type Finding, findingOf, messageOf, type Severity } from '../checks/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import { DEFAULT_POLICY, type LocatedPolicyFault, type Policy, type WorkedNoteModel } from '../note/index.ts';
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
  return diagnosticOf(finding, finding.severity, terms);
}

function diagnosticOf(finding: Finding, severity: Severity, terms: Policy['terms'] = NO_TERMS): Diagnostic {
  const { code, at, wording, other } = finding;
  const known = SAID.get(wording);
  const said = known?.terms === terms ? known : textOf(wording, terms);
  SAID.set(wording, said);
  return {
    code,
    severity,
    span: spanOf(at),
    message: said.message,
    parts: said.parts,
    related: other ? [{ span: spanOf(other.at), message: saidOf(other.words) }] : [],
  };
}

interface Said extends Pick<Diagnostic, 'message' | 'parts'> {
  readonly terms: Policy['terms'];
}

/** The wording of a finding stays the same object while the note is edited elsewhere. */
const SAID = new WeakMap<Finding['wording'], Said>();
const NO_TERMS: Policy['terms'] = DEFAULT_POLICY.terms;

function textOf(plain: Finding['wording'], terms: Policy['terms']): Said {
  const wording = wordingInTerms(plain, terms);
  const { read, why, mend, source } = wording;
  const parts = { read: saidOf(read), why: saidOf(why), mend: saidOf(mend), source: source ? saidOf(source) : null };
  return { terms, message: saidOf(messageOf(wording)), parts };
}

/** Where it stands now: a place in a block goes on to follow it. */
function spanOf({ start, end }: SourceSpan): SourceSpan {
  return { start, end };
}

/** Words of the note stand in what is said: whoever shows them may obey what they hold, and has room for a few. */
export function saidOf(words: string): string {
  return oneLine(words).replace(/‘([^’]{100})[^’]{20,}’/g, '‘$1…’');
}
