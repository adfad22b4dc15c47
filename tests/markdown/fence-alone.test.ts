/** A fence that is read without the parser is what the parser says of it; remark is the judge. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fenceAlone } from '../../src/markdown/fence-alone.ts';
import { type Flow, readFlow } from '../../src/markdown/flow.ts';
import { runs } from '../runs.ts';

const marks = fc.constantFrom('```', '````', '~~~', '~~~~', '``', '`````');
const line = fc.oneof(
  fc.constantFrom(
    '',
    ' ',
    '\t',
    '   ',
    'mixture bag',
    '  1 L water',
    '\t9 g salt',
    '> quoted',
    '- item',
    '# head',
    '<!--',
  ),
  fc
    .tuple(fc.constantFrom('', ' ', '   ', '    ', '\t', '> '), marks, fc.constantFrom('', ' ', '\t', 'x', '`'))
    .map((all) => all.join('')),
  fc.string({ unit: fc.constantFrom('`', '~', ' ', '\t', 'a', '>', '-', '\0', '\uFEFF', '\u2028', '[', '&') }),
);
const text = fc
  .tuple(
    marks,
    fc.constantFrom('', 'infusion', ' infusion', '\tinfusion skip', ' infusion `', ' a`b', ' ~', '\u00a0x'),
    fc.array(line, { maxLength: 8 }),
    fc.constantFrom('\n', '\r\n', '\r'),
    fc.boolean(),
  )
  .map(([opens, info, lines, end, last]) => [opens + info, ...lines].join(end) + (last ? end : ''));

/** What `readFlow` notes of the line that it puts behind the text is beyond the text. */
function within(flow: Flow, length: number) {
  const fences = flow.fences.map((fence) => ({ ...fence, lines: fence.lines.filter(({ start }) => start < length) }));
  return { fences, open: flow.open?.until ?? null };
}

describe('a fence alone', () => {
  it('reads as the parser reads it, whatever stands in it', () => {
    let alone = 0;
    fc.assert(
      fc.property(text, (markdown) => {
        const found = fenceAlone(markdown);
        if (found === null) return;
        alone += 1;
        expect(within(found, markdown.length)).toEqual(within(readFlow(markdown), markdown.length));
      }),
      runs(3000),
    );
    expect(alone).toBeGreaterThan(0);
  });

  it('is left to the parser when something stands behind it or before it', () => {
    expect(fenceAlone('```infusion\nmixture bag\n```\n')).not.toBeNull();
    for (const other of [
      '```infusion\n```\ntext',
      ' ```infusion\n```',
      '> ```infusion\n> ```',
      'text\n```infusion\n```',
    ])
      expect(fenceAlone(other), other).toBeNull();
  });
});
