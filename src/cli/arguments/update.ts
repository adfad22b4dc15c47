/** The arguments of `meniscus update`. */
import type { CheckArguments } from './check.ts';
import { NO_PATH, NO_POLICY_FILE, parsed, type Wrong, wrong } from './parsed.ts';

export interface UpdateArguments extends Pick<CheckArguments, 'paths' | 'policy' | 'stdinPath'> {
  readonly command: 'update';
  /** Only tells what would change. */
  readonly dryRun: boolean;
}

export function readUpdateArguments(rest: readonly string[]): UpdateArguments | Wrong {
  const given = parsed(rest, {
    'dry-run': { type: 'boolean' },
    policy: { type: 'string' },
    'stdin-path': { type: 'string' },
  });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  const { policy = null, 'dry-run': dryRun = false, 'stdin-path': stdinPath = 'standard input' } = values;
  if (policy === '') return wrong(NO_POLICY_FILE);
  if (positionals.length === 0) return wrong(NO_PATH);
  return { command: 'update', paths: positionals, policy, stdinPath, dryRun };
}
