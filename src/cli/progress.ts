/** How far a long check is, on standard error while that is a terminal; nothing of it is left behind. */
import type { Streams } from './report.ts';

const LONG_MS = 1000;
const EVERY_MS = 200;
const CLEAR_LINE = '\r\u001B[K';

export class Progress {
  private readonly start: number;
  private last = 0;
  private done = 0;
  private shown = false;

  constructor(
    private readonly err: Streams['err'],
    private readonly total: number,
    private readonly now: () => number = () => performance.now(),
  ) {
    this.start = now();
  }

  /** After each note. */
  step(): void {
    this.done += 1;
    const now = this.now();
    if (!this.err.isTTY || now - this.start < LONG_MS || now - this.last < EVERY_MS) return;
    this.last = now;
    this.shown = true;
    this.err.write(`${CLEAR_LINE}${this.done} of ${this.total} notes`);
  }

  /** The streams, for everything else: both may lead to the terminal that the progress stands on. */
  over({ out, err }: Streams): Streams {
    const cleared = (stream: Streams['out']): Streams['out'] => ({
      isTTY: stream.isTTY ?? false,
      write: (text) => {
        if (stream.isTTY) this.clear();
        return stream.write(text);
      },
    });
    return { out: cleared(out), err: cleared(err) };
  }

  clear(): void {
    if (this.shown) this.err.write(CLEAR_LINE);
    this.shown = false;
  }
}
