/** Notes that lie in one imagined folder, for examples and tests. */
import { posix } from 'node:path';
import { type Closure, DEFAULT_POLICY, NoteLibrary, type Policy, type UsedNotes, walk } from '../src/note/index.ts';

/** Where an example itself lies, in the folder that is its workspace. */
const NOTE = './note.md';

/** What the other notes of an example, a block each, give to it. */
export function usedInExample(source: string, notes: Readonly<Record<string, string>>): UsedNotes {
  const texts = new Map(
    Object.entries(notes).map(([path, block]) => [posix.join(path), `\`\`\`infusion\n${block}\n\`\`\`\n`]),
  );
  return usedAmong(posix.join(NOTE), new Map([...texts, [posix.join(NOTE), source]]));
}

/** What the notes of a folder, by their path from it, give to one of them. */
export function usedAmong(
  path: string,
  texts: ReadonlyMap<string, string>,
  policy: Policy = DEFAULT_POLICY,
): UsedNotes {
  return new NoteLibrary().usedIn(closureAmong(path, texts, policy.formulary), policy);
}

export function closureAmong(
  path: string,
  texts: ReadonlyMap<string, string>,
  formulary: readonly string[] = [],
): Closure {
  const found = new Map([...texts].map(([at, text]) => [at, { at, text }]));
  const walked = walk(found.get(path)!, { at: 'infusion-policy.json', paths: formulary }, (ask) => {
    const at = posix.join(posix.dirname(ask.from), ask.path);
    return at.startsWith('../') ? { why: 'above' } : (found.get(at) ?? { why: 'none' });
  });
  if (!walked.done) throw new Error('every question was answered');
  return walked.closure;
}
