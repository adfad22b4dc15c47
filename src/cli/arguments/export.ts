/** The arguments of `meniscus export`. */
import { NO_POLICY_FILE, parsed, type Wrong, wrong } from './parsed.ts';

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

export function readExportArguments(rest: readonly string[]): ExportArguments | Wrong {
  const given = parsed(rest, { format: { type: 'string' }, out: { type: 'string' }, policy: { type: 'string' } });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  const { format = 'fhir', policy = null, out = null } = values;
  const [file, name, ...others] = positionals;
  if (file === undefined || name === undefined || others.length > 0)
    return wrong('export takes a file and the name of an order or a mixture');
  if (format !== 'fhir' && format !== 'csv') return wrong(`--format takes fhir or csv, not ‘${format}’`);
  if (policy === '') return wrong(NO_POLICY_FILE);
  if (out === '') return wrong('--out takes a file');
  return { command: 'export', file, name, format, out, policy };
}
