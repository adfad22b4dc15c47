/** What a format of `meniscus check` does: text for each thing that is told, as it is told. */
import type { NoteReport } from '../service/index.ts';
import { GithubReporter } from './github-report.ts';
import { JsonReporter } from './json-report.ts';
import { JunitReporter } from './junit-report.ts';
import { SarifReporter } from './sarif-report.ts';
import type { Summary } from './summary.ts';
import { TextReporter } from './text-report.ts';

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

export type Format = 'text' | 'json' | 'sarif' | 'junit' | 'github';

const REPORTERS: Readonly<Record<Format, new (options: ReporterOptions) => Reporter>> = {
  text: TextReporter,
  json: JsonReporter,
  sarif: SarifReporter,
  junit: JunitReporter,
  github: GithubReporter,
};

export const FORMATS = Object.keys(REPORTERS) as readonly Format[];

export function reporterOf(format: Format, options: ReporterOptions): Reporter {
  return new REPORTERS[format](options);
}
