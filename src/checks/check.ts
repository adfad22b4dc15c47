/** What a check is: the words, severity, page and examples of one code. */
import type { Located, NoteFault } from '../note/faults.ts';

export type Fault = Located['fault'];
export type FaultCode = Fault['code'];
export type FaultOf<K extends FaultCode> = Extract<Fault, { code: K }>;
export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** What is said of one fault. Sentences; units always; no developers' words. */
export interface Wording {
  /** What was read. */
  readonly read: string;
  /** Why it cannot stand. */
  readonly why: string;
  /** What mends it. */
  readonly mend: string;
  /** Where the fact is from, when it is a fact of chemistry or of a handbook. */
  readonly source?: string;
}

/** A block with one thing wrong (`wrong`, its place between « and ») or put right. */
export interface Example {
  readonly block: string;
  /** The info string's words after `infusion`. */
  readonly info?: string;
  /** Text between the block's opening fence and the end of the note is left as it is: for `unclosed-fence`. */
  readonly open?: boolean;
}

export interface Check<K extends FaultCode = FaultCode> {
  readonly code: string;
  readonly severity: Severity;
  /** The page's title, a phrase. */
  readonly title: string;
  /** The faults this check puts into words; each fault code belongs to exactly one check. */
  readonly faults: readonly K[];
  words(fault: FaultOf<K>): Wording;
  /** The page: what it means, why it matters, what to do. Markdown. */
  readonly page: string;
  /** Each gives exactly this finding, at the place between « and ». */
  readonly wrong: readonly Example[];
  /** Each gives no finding of this code. */
  readonly right: readonly Example[];
}

/** Keeps the fault type while the list holds checks of every kind. */
export function check<K extends FaultCode>(definition: Check<K>): Check<K> {
  return definition;
}

export type { NoteFault };
