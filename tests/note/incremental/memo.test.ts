/**
 * What is remembered of a note while it is edited changes nothing but the time: after every edit all that it comes to is
 * what it comes to when it is read and worked out for the first time.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closureAmong } from '../../../scripts/example-notes.ts';
import { NoteReader, readNote } from '../../../src/markdown/index.ts';
import type { NoteText } from '../../../src/markdown/note-text.ts';
import { parseBlock } from '../../../src/notation/index.ts';
import {
  DEFAULT_POLICY,
  Memo,
  NoteLibrary,
  type Policy,
  type WorkedNoteModel,
  workNote,
} from '../../../src/note/index.ts';
import { diagnosticsOf } from '../../../src/service/diagnostics.ts';
import { Lines } from '../../../src/service/lines.ts';
import { resultsOf } from '../../../src/service/results.ts';
import { updatesOf } from '../../../src/service/updates.ts';
import {
  digits,
  edited,
  edits,
  notes,
  OTHERS,
  OTHERS_LATER,
  sideEdits,
  soundNotes,
  withDigit,
  withSideEdit,
} from './edited-notes.ts';
import { shapeOf } from './shape.ts';

/** Notes, each with as many versions as it has edits. */
const RUNS = Number(process.env.MENISCUS_ORACLE_RUNS ?? 250);
const MOST_EDITS = 6;

const WITH_PROSE: Policy = { ...DEFAULT_POLICY, prose: true };

/** What a note is worked out under, and beside. */
interface World {
  readonly policy: Policy;
  readonly others: ReadonlyMap<string, string>;
}

const PLAIN: World = { policy: DEFAULT_POLICY, others: OTHERS };
const WORLDS: readonly World[] = [
  PLAIN,
  { policy: WITH_PROSE, others: OTHERS },
  { policy: { ...DEFAULT_POLICY, formulary: ['formulary.md', 'other.md'] }, others: OTHERS },
  { policy: DEFAULT_POLICY, others: OTHERS_LATER },
];

/**
 * Holds each version, as it comes after those before, against the same read and worked out alone. When all have come, each
 * still says what it said.
 */
function follow(versions: readonly string[], worldOf: (version: number) => World): void {
  const kept = { reader: new NoteReader(), memo: new Memo(), library: new NoteLibrary() };
  const all: { readonly note: NoteText; readonly said: () => unknown; readonly before: unknown }[] = [];
  for (const [version, source] of versions.entries()) {
    const { policy, others } = worldOf(version);
    const closure = closureAmong('./note.md', new Map([['./note.md', source], ...others]), policy.formulary);
    const usedIn = (library: NoteLibrary) => library.usedIn(closure, policy);
    const note = kept.reader.read(source);
    const now = workNote(note, parseBlock, policy, usedIn(kept.library), kept.memo);
    const anew = workNote(readNote(source), parseBlock, policy, usedIn(new NoteLibrary()));
    const said = (of: WorkedNoteModel) => ({
      diagnostics: diagnosticsOf(of),
      results: resultsOf(of, new Lines(source), { start: 0, end: source.length }),
      updates: updatesOf(of),
    });
    const before = said(now);
    expect(shapeOf(now)).toBe(shapeOf(anew));
    expect(before).toEqual(said(anew));
    all.push({ note, said: () => said(now), before });
    all[0]!.note.settle();
  }
  for (const { note, said, before } of all) {
    note.settle();
    expect(said()).toEqual(before);
  }
}

function versions<T>(first: string, changes: readonly T[], apply: (source: string, change: T) => string): string[] {
  const all = [first];
  for (const change of changes) all.push(apply(all.at(-1)!, change));
  return all;
}

describe('what is remembered of a note', () => {
  it('changes nothing that any note comes to, whatever is edited', () => {
    fc.assert(
      fc.property(notes, fc.array(edits, { minLength: 1, maxLength: MOST_EDITS }), fc.nat(9), (first, changes, odd) => {
        follow(versions(first, changes, edited), () => (odd === 0 ? WORLDS[1]! : PLAIN));
      }),
      { numRuns: RUNS },
    );
  });

  it('changes nothing that rests on a number or a name elsewhere', () => {
    const changes = fc.array(fc.oneof({ weight: 4, arbitrary: digits }, edits), {
      minLength: 1,
      maxLength: MOST_EDITS,
    });
    fc.assert(
      fc.property(soundNotes, changes, (first, all) => {
        const apply = (source: string, change: (typeof all)[number]) =>
          'digit' in change ? withDigit(source, change) : edited(source, change);
        follow(versions(first, all, apply), () => PLAIN);
      }),
      { numRuns: RUNS },
    );
  });

  it('changes nothing when prose, a remark, the policy or another note is edited', () => {
    const changes = fc.array(fc.oneof({ weight: 5, arbitrary: sideEdits }, digits), {
      minLength: 1,
      maxLength: MOST_EDITS,
    });
    const worlds = fc.array(fc.constantFrom(0, 0, 0, 1, 2, 2, 2, 3), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(fc.oneof(soundNotes, notes), changes, worlds, (first, all, chosen) => {
        const apply = (source: string, change: (typeof all)[number]) =>
          'digit' in change ? withDigit(source, change) : withSideEdit(source, change);
        // Two versions in the same world, then the next one.
        follow(versions(first, all, apply), (version) => WORLDS[chosen[(version >> 1) % chosen.length]!]!);
      }),
      { numRuns: RUNS },
    );
  });
});
