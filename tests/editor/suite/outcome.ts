/** What one test in the extension host has come to, as it is written to the log for the runner outside. */
export interface Outcome {
  readonly name: string;
  /** Why it failed, or null. */
  readonly failure: string | null;
}

/** Where in the log an outcome stands: this, then JSON. */
export const outcomeMark = 'meniscus-test ';

/** Something to be shown beside the outcomes, such as a time. */
export const timeMark = 'meniscus-time ';

/** Asks the runner outside to kill the language server. */
export const killMark = 'meniscus-kill-server';
