/** What one test in the extension host has come to, as it is written to the log for the runner outside. */
export interface Outcome {
  readonly name: string;
  /** Why it failed, or null. */
  readonly failure: string | null;
}

/** Where in the log an outcome stands: this, then JSON. */
export const outcomeMark = 'meniscus-test ';
