/** What mends the findings of a note, as edits of its source. */
import { findingOf } from '../checks/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { WorkedNoteModel } from '../note/index.ts';
import { saidOf } from './diagnostics.ts';
import type { CodeFix, Diagnostic } from './types.ts';

/** Only of findings that are shown: a hospital may have turned some off. */
export function fixesOf(
  { faults }: WorkedNoteModel,
  shown: readonly Diagnostic[],
  { start, end }: SourceSpan,
): readonly CodeFix[] {
  const touched = faults.filter(({ at }) => at.start <= end && at.end >= start);
  return touched.flatMap((located) => {
    const { code, at, fixes } = findingOf(located);
    const finding = shown.find(
      ({ code: other, span }) => other === code && span.start === at.start && span.end === at.end,
    );
    if (!finding) return [];
    return fixes.map(({ title, replace, at: span = at, changesNumber, preferred = false }) => ({
      title: saidOf(title),
      finding,
      edits: [{ span, text: replace }],
      changesNumber,
      preferred,
    }));
  });
}
