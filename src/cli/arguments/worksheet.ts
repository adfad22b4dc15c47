/** The arguments of `meniscus worksheet`. */
import { NO_POLICY_FILE, parsed, type Wrong, wrong } from './parsed.ts';

export interface WorksheetArguments {
  readonly command: 'worksheet';
  readonly file: string;
  readonly name: string;
  /** `6 bags`, `250 mL`. */
  readonly bags: string | null;
  readonly to: string | null;
  readonly format: 'markdown' | 'html';
  readonly out: string | null;
  /** A file, `none`, or null for the nearest one. */
  readonly policy: string | null;
}

export function readWorksheetArguments(rest: readonly string[]): WorksheetArguments | Wrong {
  const given = parsed(rest, {
    for: { type: 'string' },
    to: { type: 'string' },
    format: { type: 'string' },
    out: { type: 'string' },
    policy: { type: 'string' },
  });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  const { format = 'markdown', policy = null, out = null, to = null } = values;
  const [file, name, ...others] = positionals;
  if (file === undefined || name === undefined || others.length > 0)
    return wrong('worksheet takes a file and the name of a mixture');
  if (format !== 'markdown' && format !== 'html') return wrong(`--format takes markdown or html, not ‘${format}’`);
  if (policy === '') return wrong(NO_POLICY_FILE);
  if (out === '') return wrong('--out takes a file');
  return { command: 'worksheet', file, name, bags: values.for ?? null, to, format, out, policy };
}
