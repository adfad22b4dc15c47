/** The command line's arguments. */
import { type CheckArguments, readCheckArguments } from './check.ts';
import { type ExportArguments, readExportArguments } from './export.ts';
import { type FormatArguments, readFormatArguments } from './format.ts';
import { type LspArguments, readLspArguments } from './lsp.ts';
import { type Wrong, wrong } from './parsed.ts';
import { type RenderArguments, readRenderArguments } from './render.ts';
import { readUpdateArguments, type UpdateArguments } from './update.ts';
import { readWorksheetArguments, type WorksheetArguments } from './worksheet.ts';

export type Arguments =
  | CheckArguments
  | FormatArguments
  | WorksheetArguments
  | RenderArguments
  | UpdateArguments
  | ExportArguments
  | LspArguments
  | { readonly command: 'help' | 'version' }
  | Wrong;

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

export function readArguments(argv: readonly string[]): Arguments {
  const [command, ...rest] = argv;
  switch (command) {
    case undefined:
    case '--help':
    case '-h':
    case 'help':
      return { command: 'help' };
    case '--version':
      return { command: 'version' };
    case 'check':
      return readCheckArguments(rest);
    case 'update':
      return readUpdateArguments(rest);
    case 'format':
      return readFormatArguments(rest);
    case 'worksheet':
      return readWorksheetArguments(rest);
    case 'render':
      return readRenderArguments(rest);
    case 'export':
      return readExportArguments(rest);
    case 'lsp':
      return readLspArguments(rest);
    default:
      return wrong(`‘${command}’ is no command; try: meniscus check PATHS...`);
  }
}
