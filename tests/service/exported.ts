/** Exports of notes on the disk, under a policy or none, as the command line makes them. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Policies } from '../../src/cli/policies.ts';
import { UsedNoteFiles } from '../../src/cli/used-notes.ts';
import { EXPORTS, uuid5 } from '../../src/cli/uuid.ts';
import { readNote } from '../../src/markdown/index.ts';
import { parseBlock } from '../../src/notation/index.ts';
import { DEFAULT_POLICY, NO_NOTES, type WorkedNoteModel, workNote } from '../../src/note/index.ts';
import { type Exported, exportOf } from '../../src/service/index.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

export interface ExportedNote {
  readonly model: WorkedNoteModel;
  /** Its own orders and mixtures that have a name and results, and no error. */
  readonly names: readonly string[];
  export(name: string, format: 'fhir' | 'csv'): Exported;
}

const uuid = (content: string) => uuid5(EXPORTS, content);

/** Orders without a name are given one. */
export async function exportedFile(path: string): Promise<ExportedNote> {
  const source = namedOrders(await readFile(root + path, 'utf8'));
  const notes = new UsedNoteFiles();
  const found = await new Policies(null, notes).of(root + path);
  if ('reason' in found) throw new Error(found.reason);
  const used = await notes.usedBy({ path: root + path, source }, found.path, found.policy);
  return noteOf(source, path, found.policy, used);
}

export function exportedNote(source: string, path = 'note.md'): ExportedNote {
  return noteOf(source, path, DEFAULT_POLICY, NO_NOTES);
}

/** Of the demonstration notes the one that has an error on purpose. */
export const WRONG = 'three-percent';

function noteOf(source: string, path: string, policy = DEFAULT_POLICY, used = NO_NOTES): ExportedNote {
  const model = workNote(readNote(source), parseBlock, policy, used);
  const made = model.mixtures.filter(({ entity }) => entity.kind === 'mixture');
  return {
    model,
    names: [...model.orders, ...made]
      .filter(({ name, state }) => state === 'complete' && name !== WRONG)
      .map(({ name }) => name),
    export: (name, format) => exportOf(source, { name, format, path, policyFile: null, uuid }, policy, used),
  };
}

function namedOrders(source: string): string {
  let count = 0;
  return source.replace(/^(give (?:(?! as ).)*)$/gm, (line) => {
    count += 1;
    return `${line} as unnamed-${count}`;
  });
}
