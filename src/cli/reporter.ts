/** What a format of `meniscus check` does: text for each thing that is told, as it is told. */
import type { NoteReport } from '../service/report-model.ts';
import type { Format } from './arguments/check.ts';
import type { Summary } from './summary.ts';

/** A note that was checked, or a policy in which something is wrong. */
export interface ReportedFile {
  /** As it is shown: relative to the working directory below it, else absolute. */
  readonly path: string;
  /** The path of the policy that was used, null for none. */
  readonly policy: string | null;
  readonly report: NoteReport;
}

export interface Outcome {
  readonly summary: Summary;
  readonly exitCode: 0 | 1 | 2;
}

/** One report. Its parts are asked for in this order and written as they come, so that they make one document. */
export interface Reporter {
  begin(): string;
  file(file: ReportedFile): string;
  /** Something that could not be read; standard error has the reason as well. */
  refused(reason: string): string;
  end(outcome: Outcome): string;
}

export interface ReporterOptions {
  readonly failOn: 'error' | 'warning';
  readonly colour: boolean;
  /** Results are set out when one note is checked; of many, only what is found. */
  readonly results: boolean;
}

type ReporterClass = new (options: ReporterOptions) => Reporter;

/** Only the format that is asked for is loaded: SARIF needs every check. */
const REPORTERS: Readonly<Record<Format, () => Promise<ReporterClass>>> = {
  text: async () => (await import('./text-report.ts')).TextReporter,
  json: async () => (await import('./json-report.ts')).JsonReporter,
  sarif: async () => (await import('./sarif-report.ts')).SarifReporter,
  junit: async () => (await import('./junit-report.ts')).JunitReporter,
  github: async () => (await import('./github-report.ts')).GithubReporter,
};

export function loadReporter(format: Format): Promise<ReporterClass> {
  return REPORTERS[format]();
}
