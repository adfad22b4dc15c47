/** The arguments of `meniscus render`. */
import { NO_POLICY_FILE, parsed, type Wrong, wrong } from './parsed.ts';

export interface RenderArguments {
  readonly command: 'render';
  /** A file, or - for standard input. */
  readonly path: string;
  /** null: standard output. */
  readonly out: string | null;
  readonly title: string | null;
  /** A folder for the figures; null: they are not saved. */
  readonly figures: string | null;
  /** A file, `none`, or null for the nearest one. */
  readonly policy: string | null;
}

export function readRenderArguments(rest: readonly string[]): RenderArguments | Wrong {
  const given = parsed(rest, {
    out: { type: 'string' },
    title: { type: 'string' },
    figures: { type: 'string' },
    policy: { type: 'string' },
  });
  if ('reason' in given) return given;
  const { values, positionals } = given;
  const { out = null, title = null, figures = null, policy = null } = values;
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) return wrong('render takes one note: meniscus render FILE');
  if (out === '' || figures === '') return wrong('--out takes a file, --figures a folder');
  if (policy === '') return wrong(NO_POLICY_FILE);
  return { command: 'render', path, out, title, figures, policy };
}
