/** The arguments of `meniscus check`. */
import { NO_PATH, NO_POLICY_FILE, parsed, type Wrong, wrong } from './parsed.ts';

export const FORMATS = ['text', 'json', 'sarif', 'junit', 'github'] as const;

/** Of a report. */
export type Format = (typeof FORMATS)[number];

export interface CheckArguments {
  readonly command: 'check';
  readonly paths: readonly string[];
  readonly format: Format;
  readonly failOn: 'error' | 'warning';
  /** A file, `none`, or null for the nearest one of each note. */
  readonly policy: string | null;
  /** Where a note read from standard input would lie. */
  readonly stdinPath: string;
}

export function readCheckArguments(rest: readonly string[]): CheckArguments | Wrong {
  const given = parsed(rest, {
    format: { type: 'string' },
    'fail-on': { type: 'string' },
    policy: { type: 'string' },
    'stdin-path': { type: 'string' },
  });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  const {
    format = 'text',
    policy = null,
    'fail-on': failOn = 'error',
    'stdin-path': stdinPath = 'standard input',
  } = values;
  if (!isFormat(format)) {
    return wrong(`--format takes ${FORMATS.slice(0, -1).join(', ')} or ${FORMATS.at(-1)}, not ‘${format}’`);
  }
  if (failOn !== 'error' && failOn !== 'warning') return wrong(`--fail-on takes error or warning, not ‘${failOn}’`);
  if (policy === '') return wrong(NO_POLICY_FILE);
  if (positionals.length === 0) return wrong(NO_PATH);
  return { command: 'check', paths: positionals, format, failOn, policy, stdinPath };
}

function isFormat(format: string): format is Format {
  return FORMATS.some((known) => known === format);
}
