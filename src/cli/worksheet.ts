/** `meniscus worksheet`: the making-up worksheet of one mixture, printed or written to a file. */
import { parseArgs } from 'node:util';
import { saying } from '../files/read-text.ts';
import { terminalSafe, worksheetHtml, worksheetMarkdown } from '../render/index.ts';
import { createNoteService } from '../service/index.ts';
import { readOneNote } from './one-note.ts';
import { isSameFile, notWritten, writeWhole } from './replace-file.ts';
import type { Streams } from './report.ts';

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

/** `rest` is what follows the word `worksheet`. */
export function readWorksheetArguments(
  rest: readonly string[],
): WorksheetArguments | { readonly command: 'wrong'; readonly reason: string } {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(rest);
  } catch (error) {
    return wrong((error as Error).message.split('\n')[0] ?? 'an option could not be read');
  }
  const { values, positionals } = parsed;
  const { format = 'markdown', policy = null, out = null, to = null } = values;
  const [file, name, ...others] = positionals;
  if (file === undefined || name === undefined || others.length > 0)
    return wrong('worksheet takes a file and the name of a mixture');
  if (format !== 'markdown' && format !== 'html') return wrong(`--format takes markdown or html, not ‘${format}’`);
  if (policy === '') return wrong('--policy takes a file or none');
  if (out === '') return wrong('--out takes a file');
  return { command: 'worksheet', file, name, bags: values.for ?? null, to, format, out, policy };
}

/** 0: a worksheet; 1: one with an error open in it, or none since the mixture has no results; 2: it could not be made. */
export async function worksheet(
  given: WorksheetArguments,
  { out, err }: Pick<Streams, 'out' | 'err'>,
): Promise<0 | 1 | 2> {
  const refuse = <Code extends 1 | 2>(code: Code, reason: string): Code => {
    err.write(`meniscus: ${terminalSafe(reason)}\n`);
    return code;
  };
  const found = await readOneNote(given.file, given.policy);
  if ('reason' in found) return refuse(2, found.reason);
  const { note, path, policy, policyPath, notes } = found;
  const { bags, to } = given;
  const closure = await notes.closureOf(note, policyPath, policy);
  const made = createNoteService()
    .work(path, note.source, policy, closure)
    .worksheet({ name: given.name }, { path, policy: policyPath, bags, to });
  if (!made.ok) return refuse(made.withheld ? 1 : 2, made.reason);
  const text = given.format === 'html' ? worksheetHtml(made.sheet) : worksheetMarkdown(made.sheet);
  if (given.out === null) out.write(text);
  else if (await isSameFile(given.out, given.file))
    return refuse(2, saying(given.out, 'is the note itself, and is not written over'));
  else {
    try {
      await writeWhole(given.out, text);
    } catch (error) {
      return refuse(2, notWritten(given.out, error));
    }
  }
  return made.errors > 0 ? 1 : 0;
}

function parse(args: readonly string[]) {
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      for: { type: 'string' },
      to: { type: 'string' },
      format: { type: 'string' },
      out: { type: 'string' },
      policy: { type: 'string' },
    },
  });
}

function wrong(reason: string) {
  return { command: 'wrong', reason } as const;
}
