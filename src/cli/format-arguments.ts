/** The arguments of `meniscus format`. */
import { parseArgs } from 'node:util';

export interface FormatArguments {
  readonly command: 'format';
  /** `-` alone, or files, folders and globs. */
  readonly paths: readonly string[];
  /** Writes nothing, and says what would change. */
  readonly check: boolean;
}

export function readFormatArguments(rest: readonly string[]): FormatArguments | { readonly reason: string } {
  try {
    const { values, positionals } = parseArgs({
      args: [...rest],
      allowPositionals: true,
      options: { check: { type: 'boolean' } },
    });
    if (positionals.length === 0) {
      return { reason: 'no path given; write a note, a folder, a glob, or - for standard input' };
    }
    if (positionals.includes('-') && positionals.length > 1) {
      return { reason: 'standard input is formatted to standard output, so - stands alone' };
    }
    return { command: 'format', paths: positionals, check: values.check === true };
  } catch (error) {
    return { reason: (error as Error).message.split('\n')[0] ?? 'an option could not be read' };
  }
}
