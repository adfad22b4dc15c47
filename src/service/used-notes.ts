/** Reads the notes that a note uses, before anything is worked out. */
import {
  type Ask,
  type Closure,
  type FormularyPaths,
  type FoundNote,
  type NoteAnswer,
  type Uses,
  walk,
} from '../note/index.ts';

export interface NoteSource {
  /**
   * The note that `path` names as it is written in the note or policy at `from`, or why it is not read. `at` of a note
   * is the same for the same note, whatever path leads to it.
   */
  read(from: string, path: string): Promise<NoteAnswer>;
}

/**
 * Total: what cannot be read is said in the closure. `formulary`: of local policy, where there is one; `uses`: what the note
 * itself names, where it is read already.
 */
export async function readClosure(
  note: FoundNote,
  formulary: FormularyPaths | null,
  source: NoteSource,
  uses?: Uses,
): Promise<Closure> {
  const answers = new Map<string, NoteAnswer>();
  const keyOf = ({ from, path }: Ask) => `${from}\n${path}`;
  for (;;) {
    const walked = walk(note, formulary, (ask) => answers.get(keyOf(ask)) ?? null, uses);
    if (walked.done) return walked.closure;
    await Promise.all(
      walked.wanted.map(async (ask) => {
        answers.set(keyOf(ask), await source.read(ask.from, ask.path).catch(() => ({ why: 'unreadable' }) as const));
      }),
    );
  }
}
