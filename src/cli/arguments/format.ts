/** The arguments of `meniscus format`. */
import { NO_PATH, parsed, type Wrong, wrong } from './parsed.ts';

export interface FormatArguments {
  readonly command: 'format';
  /** `-` alone, or files, folders and globs. */
  readonly paths: readonly string[];
  /** Writes nothing, and says what would change. */
  readonly check: boolean;
}

export function readFormatArguments(rest: readonly string[]): FormatArguments | Wrong {
  const given = parsed(rest, { check: { type: 'boolean' } });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  if (positionals.length === 0) return wrong(NO_PATH);
  if (positionals.includes('-') && positionals.length > 1) {
    return wrong('standard input is formatted to standard output, so - stands alone');
  }
  return { command: 'format', paths: positionals, check: values.check === true };
}
