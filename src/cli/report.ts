/** What a check tells, file by file, in the format asked for. */
import type { NoteReport } from '../service/index.ts';
import type { CheckArguments } from './arguments.ts';
import { fileEntry, jsonReport } from './json-report.ts';
import { NOTHING, plusNote, plusPolicy, type Summary } from './summary.ts';
import { closingText, noteText, type TextOptions } from './text-report.ts';

export interface Streams {
  readonly out: { write(text: string): unknown; readonly isTTY?: boolean };
  readonly err: { write(text: string): unknown };
}

export class Report {
  private summary: Summary = NOTHING;
  private unreadable = false;
  private readonly files: object[] = [];
  /** Policies and reasons that were told: many notes may share one. */
  private readonly told = new Set<string>();

  constructor(
    private readonly given: Pick<CheckArguments, 'format' | 'failOn'>,
    private readonly options: TextOptions,
    private readonly streams: Streams,
  ) {}

  note(path: string, policy: string | null, report: NoteReport): void {
    this.summary = plusNote(this.summary, report);
    this.tell(path, policy, report);
  }

  /** Once, and only when something is wrong with it. */
  policy(path: string, report: NoteReport): void {
    if (report.diagnostics.length === 0 || this.told.has(path)) return;
    this.told.add(path);
    this.summary = plusPolicy(this.summary, report);
    this.tell(path, null, report);
  }

  refuse(reason: string): void {
    this.unreadable = true;
    if (this.told.has(reason)) return;
    this.told.add(reason);
    this.streams.err.write(`meniscus: ${reason}\n`);
  }

  /** 0: nothing that fails; 1: something; 2: something could not be read. */
  close(): 0 | 1 | 2 {
    const { files, summary, given } = this;
    this.streams.out.write(given.format === 'json' ? jsonReport(files, summary) : closingText(summary));
    if (this.unreadable) return 2;
    const failing = summary.errors + (given.failOn === 'warning' ? summary.warnings : 0);
    return failing > 0 ? 1 : 0;
  }

  private tell(path: string, policy: string | null, report: NoteReport): void {
    if (this.given.format === 'json') this.files.push(fileEntry(path, policy, report));
    else this.streams.out.write(noteText(path, report, this.options));
  }
}
