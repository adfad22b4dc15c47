import { FORMATS, type Format } from '../../src/cli/arguments/check.ts';
import { loadReporter } from '../../src/cli/reporter.ts';
import { NOTHING } from '../../src/cli/summary.ts';
import type { NoteReport } from '../../src/service/index.ts';

const CLASSES = new Map(
  await Promise.all(FORMATS.map(async (format) => [format, await loadReporter(format)] as const)),
);

/** A whole report of one file, as `meniscus check` writes it. */
export function written(format: Format, path: string, report: NoteReport): string {
  const reporter = new (CLASSES.get(format)!)({ failOn: 'error', colour: false, results: true });
  return (
    reporter.begin() + reporter.file({ path, policy: path, report }) + reporter.end({ summary: NOTHING, exitCode: 0 })
  );
}
