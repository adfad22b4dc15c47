/** What every command's arguments are read with. */
import { type ParseArgsConfig, parseArgs } from 'node:util';

export interface Wrong {
  readonly command: 'wrong';
  readonly reason: string;
}

export function wrong(reason: string): Wrong {
  return { command: 'wrong', reason };
}

type Options = NonNullable<ParseArgsConfig['options']>;
type Parsed<T extends Options> = ReturnType<typeof parseArgs<{ args: string[]; allowPositionals: true; options: T }>>;

/** Options that the command does not have, and those without their value, are wrong. */
export function parsed<const T extends Options>(args: readonly string[], options: T): Parsed<T> | Wrong {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options });
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
}

export const NO_PATH = 'no path given; write a note, a folder, a glob, or - for standard input';
export const NO_POLICY_FILE = '--policy takes a file or none';
