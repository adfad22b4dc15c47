/** Worker threads that check notes, so that a folder is checked on all cores of the machine. */
import { Worker } from 'node:worker_threads';
import { type CheckedNote, notChecked } from './checked-note.ts';
import type { NoteFile } from './notes.ts';

interface Task {
  readonly note: NoteFile;
  settle(checked: CheckedNote | null): void;
}

interface Hand {
  readonly worker: Worker;
  /** What it was given and has not answered, in order: what it works on, and what comes next. */
  readonly tasks: Task[];
  /** Whether it has answered at all: one that cannot even start is not replaced. */
  answered: boolean;
}

/** What lies ready for a worker, so that it does not wait for the next note. */
const AT_HAND = 2;

export class Crew {
  private hands: Hand[] = [];
  private readonly waiting: Task[] = [];
  private closed = false;

  /** `program`: a module that answers each note with a `CheckedNote`, in order (`worker.ts`); `data` is its `workerData`. */
  constructor(
    private readonly program: URL,
    private readonly data: unknown,
    size: number,
  ) {
    for (let hand = 0; hand < size; hand++) this.hire();
  }

  /** null: there is no worker left to check it. Never rejects; a note on which its worker ends is not checked. */
  check(note: NoteFile): Promise<CheckedNote | null> {
    return new Promise((settle) => {
      this.waiting.push({ note, settle });
      this.deal();
    });
  }

  async close(): Promise<void> {
    this.closed = true;
    await Promise.all(this.hands.map(({ worker }) => worker.terminate()));
  }

  private hire(): void {
    const worker = new Worker(this.program, { workerData: this.data });
    const hand: Hand = { worker, tasks: [], answered: false };
    let failure: NodeJS.ErrnoException | null = null;
    worker.on('message', (checked: CheckedNote) => {
      hand.answered = true;
      hand.tasks.shift()?.settle(checked);
      this.deal();
    });
    worker.on('error', (error) => {
      failure = error;
    });
    worker.on('exit', () => this.lose(hand, failure));
    this.hands.push(hand);
  }

  private deal(): void {
    if (this.hands.length === 0) for (const task of this.waiting.splice(0)) task.settle(null);
    while (this.waiting.length > 0) {
      const hand = this.hands.reduce((least, next) => (next.tasks.length < least.tasks.length ? next : least));
      if (hand.tasks.length >= AT_HAND) return;
      const task = this.waiting.shift()!;
      hand.tasks.push(task);
      hand.worker.postMessage(task.note);
    }
  }

  /** What the worker was on is not checked; what it had not begun, others do. */
  private lose(hand: Hand, failure: NodeJS.ErrnoException | null): void {
    if (this.closed) return;
    this.hands = this.hands.filter((other) => other !== hand);
    const begun = hand.tasks.shift();
    begun?.settle(notChecked(`${begun.note.path}: could not be checked (${whyLost(failure)})`));
    this.waiting.unshift(...hand.tasks);
    if (hand.answered) this.hire();
    this.deal();
  }
}

function whyLost(failure: NodeJS.ErrnoException | null): string {
  if (failure?.code === 'ERR_WORKER_OUT_OF_MEMORY') return 'it took more memory than there is';
  return failure ? `its worker ended: ${failure.message.split('\n')[0]}` : 'its worker ended';
}
