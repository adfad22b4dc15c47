/** The text of a policy file as the editor and the command line take it. */
import { SEVERITIES } from '../checks/index.ts';
import { type FormularyEntry, type Policy, readPolicy, type Target } from '../note/index.ts';
import { policyDiagnosticsOf } from './diagnostics.ts';
import type { Diagnostic } from './types.ts';

export interface PolicyFile {
  readonly policy: Policy;
  readonly diagnostics: readonly Diagnostic[];
  /** Where it names the notes of its formulary. */
  readonly formulary: readonly FormularyEntry[];
}

/** Total: any text gives a policy, in which the defaults stand for what could not be read. */
export function readPolicyFile(text: string): PolicyFile {
  const { policy, faults, formulary } = readPolicy(text, SEVERITIES);
  return { policy, diagnostics: policyDiagnosticsOf(faults), formulary };
}

/** What is found only when the notes of the formulary are read: those that are not. `of`: null while it is not known. */
export function formularyDiagnostics(
  { formulary }: PolicyFile,
  of: (path: string) => Target | null,
): readonly Diagnostic[] {
  return policyDiagnosticsOf(
    formulary.flatMap(({ path, at }) => {
      const target = of(path);
      const why = target && ('why' in target ? target.why : target.beyond);
      return why ? [{ at, fault: { code: 'policy-invalid', problem: 'formulary-note', path, why } as const }] : [];
    }),
  );
}
