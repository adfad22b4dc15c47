/**
 * What is remembered of a note while it is edited changes nothing but the time: after every edit all that it comes to is
 * what it comes to when it is read and worked out for the first time.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closureAmong } from '../../../scripts/example-notes.ts';
import { NoteReader, readNote } from '../../../src/markdown/index.ts';
import { parseBlock } from '../../../src/notation/index.ts';
import { DEFAULT_POLICY, Memo, NoteLibrary, type Policy, workNote } from '../../../src/note/index.ts';
import { diagnosticsOf } from '../../../src/service/diagnostics.ts';
import { Lines } from '../../../src/service/lines.ts';
import { resultsOf } from '../../../src/service/results.ts';
import { updatesOf } from '../../../src/service/updates.ts';
import { digits, edited, edits, notes, OTHERS, soundNotes, withDigit } from './edited-notes.ts';
import { shapeOf } from './shape.ts';

/** Notes, each with as many versions as it has edits. */
const RUNS = Number(process.env.MENISCUS_ORACLE_RUNS ?? 250);
const MOST_EDITS = 6;

const WITH_PROSE: Policy = { ...DEFAULT_POLICY, prose: true };

/** Holds each version, as it comes after those before, against the same read and worked out alone. */
function follow(versions: readonly string[], policy: Policy): void {
  const kept = { reader: new NoteReader(), memo: new Memo(), library: new NoteLibrary() };
  for (const source of versions) {
    const closure = closureAmong('./note.md', new Map([['./note.md', source], ...OTHERS]));
    const usedIn = (library: NoteLibrary) => library.usedIn(closure, policy);
    const now = workNote(kept.reader.read(source), parseBlock, policy, usedIn(kept.library), kept.memo);
    const anew = workNote(readNote(source), parseBlock, policy, usedIn(new NoteLibrary()));
    const whole = { start: 0, end: source.length };
    expect(shapeOf(now)).toBe(shapeOf(anew));
    expect(diagnosticsOf(now)).toEqual(diagnosticsOf(anew));
    expect(resultsOf(now, new Lines(source), whole)).toEqual(resultsOf(anew, new Lines(source), whole));
    expect(updatesOf(now)).toEqual(updatesOf(anew));
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
        follow(versions(first, changes, edited), odd === 0 ? WITH_PROSE : DEFAULT_POLICY);
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
        follow(versions(first, all, apply), DEFAULT_POLICY);
      }),
      { numRuns: RUNS },
    );
  });
});
