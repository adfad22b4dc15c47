/** The command line's arguments. */
import { parseArgs } from 'node:util';
import { type ExportArguments, readExportArguments } from './export-arguments.ts';
import { type FormatArguments, readFormatArguments } from './format-arguments.ts';
import { type LspArguments, readLspArguments } from './lsp.ts';
import { FORMATS, type Format } from './reporter.ts';
import { readWorksheetArguments, type WorksheetArguments } from './worksheet.ts';

/** `check PATHS`. */
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

/** `render FILE`. */
export interface RenderArguments {
  readonly command: 'render';
  /** A file, or - for standard input. */
  readonly path: string;
  /** null: standard output. */
  readonly out: string | null;
  readonly title: string | null;
  /** A folder for the figures; null: they are not saved. */
  readonly figures: string | null;
  readonly policy: string | null;
}

export interface UpdateArguments extends Pick<CheckArguments, 'paths' | 'policy' | 'stdinPath'> {
  readonly command: 'update';
  /** Only tells what would change. */
  readonly dryRun: boolean;
}

export type Arguments =
  | CheckArguments
  | FormatArguments
  | WorksheetArguments
  | RenderArguments
  | UpdateArguments
  | ExportArguments
  | LspArguments
  | { readonly command: 'help' | 'version' }
  | { readonly command: 'wrong'; readonly reason: string };

export const USAGE = `Usage: meniscus check PATHS... [--format text|json|sarif|junit|github] [--fail-on error|warning]
                      [--policy FILE|none] [--stdin-path PATH]
       meniscus update PATHS... [--dry-run] [--policy FILE|none]
       meniscus format PATHS... [--check]
       meniscus worksheet FILE NAME [--for "6 bags"] [--to "250 mL"] [--format markdown|html] [--out FILE]
                          [--policy FILE|none]
       meniscus render FILE [--out FILE] [--title TEXT] [--figures FOLDER] [--policy FILE|none]
       meniscus export FILE NAME [--format fhir|csv] [--out FILE] [--policy FILE|none]
       meniscus lsp --stdio

check checks the infusion blocks of Markdown notes: files, folders and globs; - reads a note from standard input
(--stdin-path says where it would lie). Local policy is the nearest infusion-policy.json in or above a note's folder,
unless --policy names another or none. What a .meniscusignore file names (as .gitignore does) is left out of folders and
globs; a file that is named itself is checked all the same.

update brings numbers and tables that are bound to results up to date, and tells what changed; of - the updated text goes to
standard output.

format brings the infusion blocks of notes into one form and leaves the rest of them alone; - is written to standard
output. With --check nothing is written.

worksheet makes the worksheet of a mixture: what to measure in which order, the label, a record to tick and sign.

render writes a note as a page of HTML, with cards and figures; --figures saves each figure as an SVG file besides.

export writes an order or a mixture for other programs, as a draft: a Bundle of HL7 FHIR R4, or a table. Nothing is sent.
lsp is the language server, for editors to start: it speaks over standard input and output.

Exit 0: nothing at or above the severity that fails, or with --check or --dry-run nothing to change; 1: something; 2: something
could not be run, read or written.
`;

const NO_PATH = 'no path given; write a note, a folder, a glob, or - for standard input';

export function readArguments(argv: readonly string[]): Arguments {
  const [command, ...rest] = argv;
  if (command === undefined || command === '--help' || command === '-h' || command === 'help')
    return { command: 'help' };
  if (command === '--version') return { command: 'version' };
  if (command === 'render') return readRender(rest);
  if (command === 'format') {
    const given = readFormatArguments(rest);
    return 'reason' in given ? wrong(given.reason) : given;
  }
  if (command === 'worksheet') return readWorksheetArguments(rest);
  if (command === 'update') return update(rest);
  if (command === 'export') return readExportArguments(rest);
  if (command === 'lsp') {
    const given = readLspArguments(rest);
    return 'reason' in given ? wrong(given.reason) : given;
  }
  if (command !== 'check') return wrong(`‘${command}’ is no command; try: meniscus check PATHS...`);
  return check(rest);
}

function check(rest: readonly string[]): Arguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(rest);
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
  const { values, positionals } = parsed;
  const { format = 'text', policy = null } = values;
  const failOn = values['fail-on'] ?? 'error';
  if (!FORMATS.includes(format as Format)) {
    return wrong(`--format takes ${FORMATS.slice(0, -1).join(', ')} or ${FORMATS.at(-1)}, not ‘${format}’`);
  }
  if (failOn !== 'error' && failOn !== 'warning') return wrong(`--fail-on takes error or warning, not ‘${failOn}’`);
  if (policy === '') return wrong('--policy takes a file or none');
  if (positionals.length === 0) return wrong(NO_PATH);
  return {
    command: 'check',
    paths: positionals,
    format: format as Format,
    failOn,
    policy,
    stdinPath: values['stdin-path'] ?? 'standard input',
  };
}

function update(rest: readonly string[]): Arguments {
  let parsed: ReturnType<typeof parseUpdate>;
  try {
    parsed = parseUpdate(rest);
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
  const { values, positionals } = parsed;
  const { policy = null } = values;
  if (policy === '') return wrong('--policy takes a file or none');
  if (positionals.length === 0) return wrong(NO_PATH);
  return {
    command: 'update',
    paths: positionals,
    policy,
    stdinPath: values['stdin-path'] ?? 'standard input',
    dryRun: values['dry-run'] ?? false,
  };
}

function parseUpdate(args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { 'dry-run': { type: 'boolean' }, policy: { type: 'string' }, 'stdin-path': { type: 'string' } },
  });
}

function parse(args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      format: { type: 'string' },
      'fail-on': { type: 'string' },
      policy: { type: 'string' },
      'stdin-path': { type: 'string' },
    },
  });
}

function readRender(rest: readonly string[]): Arguments {
  let parsed: ReturnType<typeof parseRender>;
  try {
    parsed = parseRender(rest);
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
  const { values, positionals } = parsed;
  const { out = null, title = null, figures = null, policy = null } = values;
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) return wrong('render takes one note: meniscus render FILE');
  if (out === '' || figures === '') return wrong('--out takes a file, --figures a folder');
  if (policy === '') return wrong('--policy takes a file or none');
  return { command: 'render', path, out, title, figures, policy };
}

function parseRender(args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      out: { type: 'string' },
      title: { type: 'string' },
      figures: { type: 'string' },
      policy: { type: 'string' },
    },
  });
}

function wrong(reason: string): Arguments {
  return { command: 'wrong', reason };
}
