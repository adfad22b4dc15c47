/** Links and marks in prose that are still being written: found by the text of their line alone. */
import { stockFluids } from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import { keyOf, placesAt } from '../../notation/index.ts';
import { BoundBlock, type WorkedNoteModel, writtenTarget } from '../../note/index.ts';
import { observables } from './observables.ts';
import { askedOf, FLUID, named, type Scene } from './scene.ts';
import type { Candidate } from './types.ts';

/** Longest part of a line that is looked at. */
const LONGEST = 500;
/** What stands before a target: a link's bracket, a definition's label, or the mark of a target by itself. */
const TARGET = /(?:\]\([ \t]*(<?)|^[ \t>*+\-.)\d]*\[[^\]]+\]:[ \t]*(<?)|(<))infusion:([^()<>]*)$/i;
const MARK = /^[ \t>*+\-.)\d]*<!--[ \t]*infusion:[ \t]*(.*)$/i;

export interface TargetPlace {
  /** What is to be replaced: the name, or what stands behind its slash. */
  readonly span: SourceSpan;
  readonly candidates: readonly Candidate[];
}

/** Names behind `infusion:`, and behind the slash the results of what is named. */
export function targetAt(model: WorkedNoteModel, offset: number): TargetPlace | null {
  const found = TARGET.exec(lineBefore(model.source, offset));
  if (!found) return null;
  const written = found[4]!;
  const isAngled = found[1] === '<' || found[2] === '<' || found[3] === '<';
  if (!isAngled && /\s/.test(written)) return null;
  const scene = proseScene(model, BoundBlock.at('', offset));
  const slash = written.lastIndexOf('/');
  const subject = slash < 0 ? null : subjectOf(keyOf(written.slice(0, slash).replaceAll('-', ' ')), scene);
  const rest = (isAngled ? /^[^()<>/\r\n]*/ : /^[^\s()<>/]*/).exec(model.source.slice(offset, offset + LONGEST))![0];
  const typed = subject ? written.slice(slash + 1) : written;
  return {
    span: { start: offset - typed.length, end: offset + rest.length },
    candidates: (subject ? observables(subject, 'show', scene) : names(scene)).map(asTarget),
  };
}

/** The statement of a mark as a block of its own, and where in it the place is. */
export function markAt(model: WorkedNoteModel, offset: number): { readonly scene: Scene; readonly at: number } | null {
  const written = MARK.exec(lineBefore(model.source, offset))?.[1];
  if (written === undefined || written.includes('--')) return null;
  const rest = /^.*?(?=[ \t]*-->|[ \t]*$)/m.exec(model.source.slice(offset, offset + LONGEST))![0];
  const block = BoundBlock.at(written + rest, offset - written.length);
  return { scene: proseScene(model, block), at: written.length };
}

/** A mark keeps a comparison and nothing else. */
export function isBegun({ scene, at }: { readonly scene: Scene; readonly at: number }): boolean {
  return placesAt(scene.block.text, at).some(({ kind }) => kind !== 'line');
}

/** Prose is bound to what the ordinary blocks of the note share. */
function proseScene(model: WorkedNoteModel, block: BoundBlock): Scene {
  return { model, block, scope: model.scopes.at(-1)!, open: null };
}

function subjectOf(key: string, { scope }: Scene) {
  const own = scope.names.get(key);
  if (own) return own === 'duplicate' ? null : askedOf(own);
  return FLUID;
}

function names(scene: Scene): readonly Candidate[] {
  const own = named(scene, 'mixture', 'stock', 'patient', 'give').map(
    ({ name, kind, title }): Candidate => ({
      kind: kind === 'give' ? 'order' : (kind as 'mixture' | 'stock' | 'patient'),
      label: name!.text,
      detail: title?.text ?? (kind === 'give' ? 'order' : kind),
    }),
  );
  const imported = scene.scope.imported.map(
    (key): Candidate => ({
      kind: 'mixture',
      label: key,
      detail: 'from a note that is used',
    }),
  );
  const shelf = stockFluids().map(({ name }): Candidate => ({ kind: 'fluid', label: name, detail: 'one litre' }));
  return [...own, ...imported, ...shelf];
}

function asTarget(candidate: Candidate): Candidate {
  return { ...candidate, text: writtenTarget(candidate.label), filter: writtenTarget(candidate.label) };
}

function lineBefore(source: string, offset: number): string {
  const before = source.slice(Math.max(offset - LONGEST, 0), offset);
  return before.slice(Math.max(before.lastIndexOf('\n'), before.lastIndexOf('\r')) + 1);
}
