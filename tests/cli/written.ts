import { type Format, reporterOf } from '../../src/cli/reporter.ts';
import { NOTHING } from '../../src/cli/summary.ts';
import type { NoteReport } from '../../src/service/index.ts';

/** A whole report of one file, as `meniscus check` writes it. */
export function written(format: Format, path: string, report: NoteReport): string {
  const reporter = reporterOf(format, { failOn: 'error', colour: false, results: true });
  return (
    reporter.begin() + reporter.file({ path, policy: path, report }) + reporter.end({ summary: NOTHING, exitCode: 0 })
  );
}
