/** A note brought up to date, as the command line tells it. */
import { findingOf, messageOf } from '../checks/index.ts';
import { readNote } from '../markdown/index.ts';
import { parseBlock } from '../notation/index.ts';
import { DEFAULT_POLICY, NO_NOTES, type Policy, type UsedNotes, workNote } from '../note/index.ts';
import { applied } from './edits.ts';
import { Lines } from './lines.ts';
import { updatesOf } from './updates.ts';

/** Lines are counted from zero. */
export interface NoteUpdate {
  readonly text: string;
  readonly changes: readonly LineChange[];
  readonly leftAlone: readonly { readonly line: number; readonly reason: string }[];
}

/** Whole lines of the note, without their ends; the first one's number is that before the change. */
export interface LineChange {
  readonly line: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

export function updateOf(source: string, policy: Policy = DEFAULT_POLICY, used: UsedNotes = NO_NOTES): NoteUpdate {
  const model = workNote(readNote(source), parseBlock, policy, used);
  const lines = new Lines(source);
  const edits = updatesOf(model);
  const withheld = model.leftAlone.map(({ at, target }) => ({
    line: lines.at(at.start).line,
    reason: `${target} has no results until what it names is mended`,
  }));
  const broken = model.faults
    .filter(({ fault }) => fault.code === 'broken-link')
    .map((located) => ({ line: lines.at(located.at.start).line, reason: messageOf(findingOf(located).wording) }));
  return {
    text: applied(source, edits),
    changes: changesOf(source, edits, lines),
    leftAlone: [...withheld, ...broken].sort((a, b) => a.line - b.line),
  };
}

/** Edits on one line make one change. */
function changesOf(source: string, edits: ReturnType<typeof updatesOf>, lines: Lines): readonly LineChange[] {
  const groups: { first: number; last: number; edits: (typeof edits)[number][] }[] = [];
  for (const edit of edits) {
    const first = lines.at(edit.span.start).line;
    const last = lines.at(edit.span.end).line;
    const group = groups.at(-1);
    if (group && group.last >= first) {
      group.last = last;
      group.edits.push(edit);
    } else groups.push({ first, last, edits: [edit] });
  }
  return groups.map((group) => {
    const start = lines.startOf(group.first);
    const end = lines.startOf(group.last) + lines.text(group.last).length;
    const within = group.edits.map(({ span, text }) => ({
      span: { start: span.start - start, end: span.end - start },
      text,
    }));
    const before = source.slice(start, end);
    return changed(group.first, before.split(LINE_END), applied(before, within).split(LINE_END));
  });
}

const LINE_END = /\r\n|\n|\r/;

/** Without the lines at either end that stay. */
function changed(line: number, before: readonly string[], after: readonly string[]): LineChange {
  const shorter = Math.min(before.length, after.length);
  let same = 0;
  while (same < shorter && before[same] === after[same]) same += 1;
  let last = 0;
  while (last < shorter - same && before.at(-1 - last) === after.at(-1 - last)) last += 1;
  return {
    line: line + same,
    before: before.slice(same, before.length - last),
    after: after.slice(same, after.length - last),
  };
}
