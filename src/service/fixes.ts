/** What mends the findings of a note, as edits of its source. */
import type { Finding, Fix } from '../checks/index.ts';
import { closingFence, newLines, withoutLine } from '../markdown/new-lines.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Edit, WorkedNoteModel } from '../note/index.ts';
import { saidOf } from './diagnostics.ts';
import { filledIn, snippet } from './gaps.ts';
import type { CodeFix, Diagnostic } from './types.ts';

/** A finding of the note as it is shown. */
export interface ShownFinding {
  readonly finding: Finding;
  readonly shown: Diagnostic;
}

/** Of the findings that are shown: a hospital may have turned some off. */
export function fixesOf(
  model: WorkedNoteModel,
  findings: readonly ShownFinding[],
  { start, end }: SourceSpan,
): readonly CodeFix[] {
  const touched = findings.filter(({ shown: { span } }) => span.start <= end && span.end >= start);
  return touched.flatMap(({ finding, shown }) =>
    finding.fixes.flatMap((fix) => {
      const written = writtenBy(fix, finding, model);
      const { title, changesNumber, preferred = false } = fix;
      return written ? [{ title: saidOf(title), finding: shown, changesNumber, preferred, ...written }] : [];
    }),
  );
}

function writtenBy(fix: Fix, { at }: Finding, model: WorkedNoteModel): Pick<CodeFix, 'edits' | 'snippet'> | null {
  if ('replace' in fix) {
    const { start, end } = fix.at ?? at;
    return { edits: [{ span: { start, end }, text: fix.replace }], snippet: null };
  }
  if ('leavesOut' in fix) return { edits: [withoutLine(model.source, at.start)], snippet: null };
  const block = model.blocks.find(({ span }) => span.start <= at.start && at.start <= span.end);
  if (!block) return null;
  if ('edits' in fix) {
    return { edits: fix.edits.map(({ span, text }) => ({ span: block.toSource(span), text })), snippet: null };
  }
  if ('lines' in fix) {
    const { start } = fix.at ? block.toSource(fix.at) : at;
    return withGaps(newLines(model.source, block, start, fix));
  }
  return { edits: [closingFence(model.source, block)], snippet: null };
}

/** New text with gaps, for editors that fill them in and for those that do not. */
export function withGaps({ span, text }: Edit): Pick<CodeFix, 'edits' | 'snippet'> {
  const plain = filledIn(text);
  return { edits: [{ span, text: plain }], snippet: plain === text ? null : snippet(text) };
}
