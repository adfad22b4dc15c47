/** `meniscus check`: reads notes and their policies, reports, and gives the exit code. */
import { mayHoldBlocks } from '../markdown/may-hold-blocks.ts';
import { NOTHING } from '../service/report-model.ts';
import type { CheckArguments } from './arguments/check.ts';
import { type Asked, type CheckedNote, notChecked } from './checked-note.ts';
import { Crew } from './crew.ts';
import { inOrder } from './in-order.ts';
import { NearestPolicies } from './nearest-policy.ts';
import type { NoteChecker } from './note-checker.ts';
import { findNotes, type NoteFile, readNoteFile, readStandardInput, type Unreadable } from './notes.ts';
import { Progress } from './progress.ts';
import { Report, type Streams } from './report.ts';

export interface Threads {
  /** What a worker runs (`worker.ts`). */
  readonly program: URL;
  /** Of the machine. One is left to this thread and to what the engine of JavaScript does beside: on two cores, two workers took longer than one thread. */
  readonly cores: number;
}

/** A worker takes its time to start: it is wanted after so many notes with blocks, and for so many that may be left. */
const ALONE = 16;
const EACH = 150;
/** Notes read ahead for each worker. */
const AHEAD = 6;

/**
 * 0: nothing that fails; 1: something; 2: something could not be read (the rest is still checked). Without `threads`, and
 * where there are few notes, all are checked on this thread, with the same outcome.
 */
export async function check(
  given: CheckArguments,
  streams: Streams,
  threads: Threads | null = null,
): Promise<0 | 1 | 2> {
  const piped = given.paths.includes('-');
  const found = await findNotes(given.paths.filter((path) => path !== '-'));
  const entries = [...(piped ? [{ stdin: given.stdinPath }] : []), ...found];
  const single = entries.length === 1;
  const asked: Asked = { policy: given.policy, results: given.format === 'json' || single };
  const here = new CheckerAtNeed(asked);
  const refusal = await here.refusal();
  if (refusal !== null) {
    streams.err.write(`meniscus: ${refusal}\n`);
    return 2;
  }
  const progress = new Progress(streams.err, entries.length);
  const report = await Report.begin(given, single, progress.over(streams));
  const checking = new Checking(here, entries.length, threads, asked);
  try {
    for await (const checked of inOrder(entries, checking.ahead, (entry) => checking.take(entry))) {
      report.take(checked);
      progress.step();
    }
  } finally {
    await checking.close();
    progress.clear();
  }
  return report.close();
}

class Checking {
  readonly ahead: number;
  private crew: Crew | null = null;
  private begun = 0;
  private withBlocks = 0;

  constructor(
    private readonly here: CheckerAtNeed,
    private readonly total: number,
    private readonly threads: Threads | null,
    private readonly asked: Asked,
  ) {
    this.ahead = AHEAD * (threads?.cores ?? 1);
  }

  async take(entry: string | Unreadable | { readonly stdin: string }): Promise<CheckedNote> {
    this.begun += 1;
    const note = typeof entry === 'string' ? readNoteFile(entry) : await noteAt(entry);
    if ('reason' in note) return notChecked(note.reason);
    if (!mayHoldBlocks(note.source)) return this.here.checkWithoutBlocks(note);
    this.withBlocks += 1;
    if (this.withBlocks === ALONE) this.hire();
    return (await this.crew?.check(note)) ?? this.here.check(note);
  }

  private hire(): void {
    if (!this.threads) return;
    const { program, cores } = this.threads;
    const size = Math.min(cores - 1, Math.floor((this.total - this.begun) / EACH));
    if (size > 1) this.crew = new Crew(program, this.asked, size);
  }

  async close(): Promise<void> {
    await this.crew?.close();
  }
}

/**
 * What reads notation and works it out is two thirds of the program and most of its start: it is loaded for the first note
 * with blocks, or the first policy.
 */
class CheckerAtNeed {
  private checker: Promise<NoteChecker> | null = null;
  private readonly policies = new NearestPolicies();

  constructor(private readonly asked: Asked) {}

  /** Why the policy that was named for all notes cannot be read; null where it can, or none was named. */
  async refusal(): Promise<string | null> {
    const { policy } = this.asked;
    return policy === null || policy === 'none' ? null : (await this.whole()).refusal();
  }

  async check(note: NoteFile): Promise<CheckedNote> {
    return (await this.whole()).check(note);
  }

  /** All that can be told of such a note is what is wrong with its policy. */
  async checkWithoutBlocks(note: NoteFile): Promise<CheckedNote> {
    const { policy } = this.asked;
    const none = policy === 'none' || (policy === null && (await this.policies.to(note.path)) === null);
    if (!none) return this.check(note);
    return { refused: [], policy: null, note: { path: note.path, policy: null, report: NOTHING } };
  }

  private whole(): Promise<NoteChecker> {
    this.checker ??= import('./note-checker.ts').then((loaded) => new loaded.NoteChecker(this.asked));
    return this.checker;
  }
}

async function noteAt(entry: Unreadable | { readonly stdin: string }): Promise<NoteFile | Unreadable> {
  return 'stdin' in entry ? readStandardInput(entry.stdin) : entry;
}
