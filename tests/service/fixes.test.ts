import { describe, expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';

describe('fixes of a note', () => {
  const source = '> - ```infusion\r\n>   mixture bag\r\n>     .5 L dextrose 5%\r\n>     10 mmoll water\r\n>   ```\r\n';
  const note = createNoteService().work('file:///a.md', source);

  it('are edits of the source, with their finding, in the order of the note', () => {
    const fixes = note.fixes({ start: 0, end: source.length });
    expect(
      fixes.map(({ title, edits, finding, changesNumber, preferred }) => ({
        title,
        edits: edits.map(({ span, text }) => [source.slice(span.start, span.end), text]),
        code: finding?.code,
        changesNumber,
        preferred,
      })),
    ).toEqual([
      { title: 'Write ‘0.5’', edits: [['.5', '0.5']], code: 'naked-decimal', changesNumber: false, preferred: true },
      {
        title: 'Write ‘mmol’',
        edits: [['mmoll', 'mmol']],
        code: 'unknown-unit',
        changesNumber: true,
        preferred: false,
      },
    ]);
    for (const { finding } of fixes) expect(note.diagnostics()).toContain(finding);
  });

  it('are none where nothing is found', () => {
    const at = source.indexOf('mixture');
    expect(note.fixes({ start: at, end: at + 3 })).toEqual([]);
    expect(note.fixes({ start: -5, end: -1 })).toEqual([]);
  });
});
