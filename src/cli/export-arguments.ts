/** The arguments of `meniscus export`. */
import { parseArgs } from 'node:util';

export interface ExportArguments {
  readonly command: 'export';
  readonly file: string;
  /** Of an order or a mixture. */
  readonly name: string;
  readonly format: 'fhir' | 'csv';
  /** null: standard output. */
  readonly out: string | null;
  /** A file, `none`, or null for the nearest one. */
  readonly policy: string | null;
}

/** `rest` is what follows the word `export`. */
export function readExportArguments(
  rest: readonly string[],
): ExportArguments | { readonly command: 'wrong'; readonly reason: string } {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(rest);
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
  const { values, positionals } = parsed;
  const { format = 'fhir', policy = null, out = null } = values;
  const [file, name, ...others] = positionals;
  if (file === undefined || name === undefined || others.length > 0)
    return wrong('export takes a file and the name of an order or a mixture');
  if (format !== 'fhir' && format !== 'csv') return wrong(`--format takes fhir or csv, not ‘${format}’`);
  if (policy === '') return wrong('--policy takes a file or none');
  if (out === '') return wrong('--out takes a file');
  return { command: 'export', file, name, format, out, policy };
}

function parse(args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { format: { type: 'string' }, out: { type: 'string' }, policy: { type: 'string' } },
  });
}

function wrong(reason: string) {
  return { command: 'wrong', reason } as const;
}
