/** Folders of notes that use each other, worked out. */
import { usedAmong } from '../../scripts/example-notes.ts';
import { readNote } from '../../src/markdown/index.ts';
import { parseBlock } from '../../src/notation/index.ts';
import { DEFAULT_POLICY, type Policy, workNote } from '../../src/note/index.ts';
import { diagnosticsOf } from '../../src/service/diagnostics.ts';
import { fenced } from '../annotated.ts';

export type Notes = Readonly<Record<string, string>>;

export function policyWith(formulary: readonly string[]): Policy {
  return { ...DEFAULT_POLICY, formulary };
}

/** The first note of a folder of whole notes, worked out. */
export function worked(notes: Notes, formulary: readonly string[] = []) {
  const texts = new Map(Object.entries(notes));
  const [path, source] = [...texts][0]!;
  const policy = policyWith(formulary);
  return workNote(readNote(source), parseBlock, policy, usedAmong(path, texts, policy));
}

/** Blocks in place of whole notes. */
export function blocks(notes: Notes): Notes {
  return Object.fromEntries(Object.entries(notes).map(([path, block]) => [path, fenced(block)]));
}

export function found(notes: Notes, formulary: readonly string[] = []): readonly string[] {
  const model = worked(notes, formulary);
  return diagnosticsOf(model).map(({ code, span }) => `${code}: ${model.source.slice(span.start, span.end)}`);
}

export function sodium(notes: Notes, name = 'bag', formulary: readonly string[] = []): string | null {
  const model = worked(notes, formulary);
  const contents = model.mixtures.find((mixture) => mixture.name === name)?.contents;
  if (!contents) return null;
  const amount = [...contents.particles].find(([particle]) => particle.name === 'sodium')?.[1];
  return amount?.div(contents.volume).times(1000).toFixed(1) ?? '0';
}
