/** What a check tells, in the format asked for: written note by note, and counted for the exit code. */
import { terminalSafe } from '../render/terminal-safe.ts';
import type { CheckArguments } from './arguments/check.ts';
import type { CheckedNote } from './checked-note.ts';
import { loadReporter, type ReportedFile, type Reporter } from './reporter.ts';
import { NOTHING, plusNote, plusPolicy, type Summary } from './summary.ts';

export interface Streams {
  readonly out: { write(text: string): unknown; readonly isTTY?: boolean };
  readonly err: { write(text: string): unknown; readonly isTTY?: boolean };
}

export class Report {
  private summary: Summary = NOTHING;
  private unreadable = false;
  /** Policies and reasons that were told: many notes may share one. */
  private readonly told = new Set<string>();

  private constructor(
    private readonly failOn: CheckArguments['failOn'],
    private readonly reporter: Reporter,
    private readonly streams: Streams,
  ) {
    this.write(this.reporter.begin());
  }

  /** `results`: whether one note alone is checked, whose results are set out. */
  static async begin(
    { format, failOn }: Pick<CheckArguments, 'format' | 'failOn'>,
    results: boolean,
    streams: Streams,
  ): Promise<Report> {
    const colour = isColoured(Boolean(streams.out.isTTY), process.env);
    const Format = await loadReporter(format);
    return new Report(failOn, new Format({ failOn, colour, results }), streams);
  }

  /** A policy goes before the first note that it is for, and only when something is wrong with it. */
  take({ refused, policy, note }: CheckedNote): void {
    for (const reason of refused) this.refuse(reason);
    if (policy && policy.report.diagnostics.length > 0 && !this.told.has(policy.path)) {
      this.told.add(policy.path);
      this.summary = plusPolicy(this.summary, policy.report);
      this.tell(policy);
    }
    if (note) {
      this.summary = plusNote(this.summary, note.report);
      this.tell(note);
    }
  }

  /** 0: nothing that fails; 1: something; 2: something could not be read. */
  close(): 0 | 1 | 2 {
    const { summary } = this;
    const failing = summary.errors + (this.failOn === 'warning' ? summary.warnings : 0);
    const exitCode = this.unreadable ? 2 : failing > 0 ? 1 : 0;
    this.write(this.reporter.end({ summary, exitCode }));
    return exitCode;
  }

  private refuse(reason: string): void {
    this.unreadable = true;
    if (this.told.has(reason)) return;
    this.told.add(reason);
    this.streams.err.write(`meniscus: ${terminalSafe(reason)}\n`);
    this.write(this.reporter.refused(reason));
  }

  private tell(file: ReportedFile): void {
    this.write(this.reporter.file(file));
  }

  private write(text: string): void {
    if (text) this.streams.out.write(text);
  }
}

/**
 * On a terminal, unless NO_COLOR is set (no-color.org) or the terminal says that it is dumb; anywhere with FORCE_COLOR
 * (force-color.org), which goes before NO_COLOR as in Node, and of which 0 and false mean none.
 */
export function isColoured(isTerminal: boolean, { FORCE_COLOR, NO_COLOR, TERM }: NodeJS.ProcessEnv): boolean {
  if (FORCE_COLOR) return FORCE_COLOR !== '0' && FORCE_COLOR !== 'false';
  return isTerminal && !NO_COLOR && TERM !== 'dumb';
}
