/** The fence of a block, where one may begin. */
import type { NoteReader } from '../../markdown/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import { snippet } from '../gaps.ts';
import type { Candidate } from './types.ts';

/** What stands before a fence's marks in its line: margins, quotations, a list's item. Then marks, and part of the word. */
const BEGUN = /^(\uFEFF?[ \t>*+\-.)\d]*?)(`{1,3}[a-z]*)$/i;

interface FencePlace {
  /** From the first mark to what is to be replaced. */
  readonly span: SourceSpan;
  readonly candidates: readonly Candidate[];
}

/**
 * Fences for a place in the source that lies in no block. Whether one may begin there the reader of Markdown decides, on
 * the note as it would be.
 */
export function fencesAt(source: string, offset: number, reader: NoteReader): FencePlace | null {
  const start = Math.max(source.lastIndexOf('\n', offset - 1), source.lastIndexOf('\r', offset - 1)) + 1;
  const begun = BEGUN.exec(source.slice(start, offset));
  const rest = /^`*[ \t]*(?=[\r\n]|$)/.exec(source.slice(offset));
  if (!begun || !rest || offset - start > LONGEST) return null;
  const [, margin, marks] = begun as unknown as [string, string, string];
  const span = { start: offset - marks.length, end: offset + rest[0].length };
  const next = `\n${continued(margin)}`;
  const probe = `${source.slice(0, span.start)}\`\`\`infusion${next}\`\`\`${source.slice(span.end)}`;
  const begins = reader.read(probe).blocks.some((block) => block.span.start === span.start && block.closed);
  if (!begins) return null;
  const fence = (label: string, detail: string, lines: readonly string[]): Candidate => ({
    kind: 'block',
    label,
    detail,
    text: ['```infusion', '', '```'].join(next),
    snippet: snippet(['```infusion', ...lines, '```'].join(next)),
  });
  return {
    span,
    candidates: [
      fence('```infusion', 'an infusion block', ['‹›']),
      fence('```infusion mixture', 'an infusion block with a mixture', [
        'mixture ‹name› "‹Title›"',
        '  ‹amount› ‹fluid›',
      ]),
    ],
  };
}

/** Longest margin and marks that are looked at. */
const LONGEST = 200;

/** The margin of the lines below: a list's mark is said once, a quotation's on every line. */
function continued(margin: string): string {
  return margin.replace(/[^\s>]/g, ' ').replace(/\uFEFF/g, '');
}
