/** The text of a policy file as the editor and the command line take it. */
import { SEVERITIES } from '../checks/index.ts';
import { type Policy, readPolicy } from '../note/index.ts';
import { policyDiagnosticsOf } from './diagnostics.ts';
import type { Diagnostic } from './types.ts';

export interface PolicyFile {
  readonly policy: Policy;
  readonly diagnostics: readonly Diagnostic[];
}

/** Total: any text gives a policy, in which the defaults stand for what could not be read. */
export function readPolicyFile(text: string): PolicyFile {
  const { policy, faults } = readPolicy(text, SEVERITIES);
  return { policy, diagnostics: policyDiagnosticsOf(faults) };
}
