/** Notes in tests are text with the place of a finding between « and »; this takes the marks out and says where they stood. */
import { usedInExample } from '../scripts/example-notes.ts';
import type { Example } from '../src/checks/check.ts';
import { readNote } from '../src/markdown/index.ts';
import { parseBlock } from '../src/notation/index.ts';
import { DEFAULT_POLICY, workNote } from '../src/note/index.ts';
import { diagnosticsOf } from '../src/service/diagnostics.ts';
import { readPolicyFile } from '../src/service/policy-file.ts';
import type { Diagnostic } from '../src/service/types.ts';

export interface Annotated {
  readonly text: string;
  /** The marked texts, in order. */
  readonly marked: readonly string[];
}

export function annotated(text: string): Annotated {
  return { text: text.replace(/[«»]/g, ''), marked: [...text.matchAll(/«([^»]*)»/g)].map((match) => match[1]!) };
}

/** A note of one block, or the note that an example is. */
export function fenced(
  block: string,
  { info = '', open = false, note = false }: Pick<Example, 'info' | 'open' | 'note'> = {},
): string {
  if (note) return block;
  return `\`\`\`infusion${info && ` ${info}`}\n${block}\n${open ? '' : '```\n'}`;
}

/** What is found in an example, which is a block or the text of a policy. */
export function findingsIn(text: string, example: Example): { source: string; found: readonly Diagnostic[] } {
  const source = example.policy ? text : fenced(text, example);
  return { source, found: example.policy ? readPolicyFile(source).diagnostics : findings(source, example.notes) };
}

/** `notes`: those that it uses, by their path, a block each. */
export function findings(source: string, notes: Example['notes'] = {}): readonly Diagnostic[] {
  return diagnosticsOf(workNote(readNote(source), parseBlock, DEFAULT_POLICY, usedInExample(source, notes)));
}

/** Findings as `code: text at fault`, short enough to compare. */
export function found(source: string): readonly string[] {
  return findings(source).map(({ code, span }) => `${code}: ${source.slice(span.start, span.end)}`);
}

/** The mixtures of a block by name, worked out. */
export function mixturesOf(block: string) {
  const model = workNote(readNote(fenced(block)));
  return new Map(model.mixtures.map((mixture) => [mixture.name, mixture]));
}
