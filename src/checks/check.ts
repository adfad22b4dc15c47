/** What a check is: the words, severity, page and examples of one code. */
import type { Put } from '../markdown/new-lines.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Span } from '../notation/ast.ts';
import type { Located, NoteFault } from '../note/faults.ts';
import type { BlockEdit } from '../note/model.ts';
import type { PolicyFault } from '../note/policy/faults.ts';

export type Fault = Located['fault'] | PolicyFault;
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

/** A way to mend a finding. */
export type Fix = FixTerms & (OtherText | OtherTexts | AddedLines | LineLeftOut | ClosedFence);

/** Other text in the finding's own place, or in the one that is meant instead. */
interface OtherText {
  readonly replace: string;
  readonly at?: SourceSpan;
}

/** Other text in several places of the finding's block at once, in order and apart from each other. */
interface OtherTexts {
  readonly edits: readonly BlockEdit[];
}

/**
 * Lines that are put in beside the finding's own line, or beside that of another place of its block's text. A gap to
 * fill in is a word: `‹volume›`.
 */
interface AddedLines {
  readonly lines: readonly string[];
  readonly put: Put;
  readonly at?: Span;
}

/** Nothing in place of the finding's whole line. */
interface LineLeftOut {
  readonly leavesOut: 'line';
}

/** The block's missing last line. */
interface ClosedFence {
  readonly closesFence: true;
}

interface FixTerms {
  /** What is done, in plain text. */
  readonly title: string;
  /** Whether a number, or what is counted, comes out otherwise or is chosen: such a fix is taken one at a time. */
  readonly changesNumber: boolean;
  /** The one that is plainly meant. */
  readonly preferred?: boolean;
}

/** A block, a note, or the text of a policy, with one thing wrong (`wrong`, its place between « and ») or put right. */
export interface Example {
  readonly block: string;
  /** The info string's words after `infusion`. */
  readonly info?: string;
  /** Text between the block's opening fence and the end of the note is left as it is: for `unclosed-fence`. */
  readonly open?: boolean;
  /** Other notes by their path, each of one block; the example itself is `./note.md`. */
  readonly notes?: Readonly<Record<string, string>>;
  /** It is the text of an `infusion-policy.json`, not a block. */
  readonly policy?: boolean;
  /** It is a whole note, not a block. */
  readonly note?: boolean;
}

export interface Check<K extends FaultCode = FaultCode> {
  readonly code: string;
  /** Of the code in general; `severityOf` says where a fault differs. */
  readonly severity: Severity;
  severityOf?(fault: FaultOf<K>): Severity;
  /** The page's title, a phrase. */
  readonly title: string;
  /** The faults this check puts into words; each fault code belongs to exactly one check. */
  readonly faults: readonly K[];
  words(fault: FaultOf<K>): Wording;
  /** Where the mend is plain: after any of them the finding is gone. */
  fixes?(fault: FaultOf<K>): readonly Fix[];
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
