/** After the updates nothing is stale, a second time changes nothing, and nothing else in the note is touched. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../src/markdown/index.ts';
import { applied } from '../../src/service/edits.ts';
import { createNoteService } from '../../src/service/index.ts';
import { runs } from '../runs.ts';

function work(source: string) {
  return createNoteService().work('file:///a.md', source);
}

function updated(source: string): string {
  return applied(source, work(source).updates());
}

const MIXTURES =
  'mixture one\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL\nmixture two\n  500 mL dextrose 5%\n  water to 1 L\nmixture off\n  1 L sodum';
const number = fc
  .tuple(
    fc.constantFrom('0', '1', '77', '152.5', '20.00', '−4', '1234'),
    fc.constantFrom(' mmol/L', ' mEq/L', ' g/L', ' mL/L', '', ' mmol', '&nbsp;mmol/L', '** mmol/L'),
    fc.constantFrom('one', 'two', 'off', 'none'),
    fc.constantFrom('sodium', 'potassium', 'free-water', 'dextrose', 'tonicity-in-the-body', 'nothing'),
  )
  .map(([value, unit, name, result]) => {
    const text = unit.startsWith('**') ? `**${value}${unit}` : `${value}${unit}`;
    return `The drip has [${text}](infusion:${name}/${result}).`;
  });
const table = fc
  .tuple(
    fc.constantFrom('one', 'two', 'one, two', 'off', "two, lactated Ringer's"),
    fc.constantFrom('sodium', 'osmolarity, free water', 'volume'),
    fc.constantFrom('', '\n| a | b |\n| - | - |\n| 1 | 2 |\n', 'Other text.\n'),
    fc.boolean(),
  )
  .map(
    ([fluids, results, between, closed]) =>
      `<!-- infusion:compare ${fluids} by ${results} -->\n${between}${closed ? '<!-- /infusion -->' : ''}`,
  );
const parts = fc.array(fc.oneof(number, table, fc.constant('Prose, `[1 L](infusion:one/volume)`.')), { maxLength: 6 });
const notes = fc
  .tuple(parts, fc.constantFrom('', '> ', '  ', '  > '), fc.constantFrom('\n', '\r\n'), fc.constantFrom('', '\uFEFF'))
  .map(([all, prefix, lineEnd, mark]) => {
    const prose = all.join('\n\n').replace(/^/gm, prefix);
    const lead = prefix.startsWith('  ') ? '- Item\n\n' : '';
    return mark + `\`\`\`infusion\n${MIXTURES}\n\`\`\`\n\n${lead}${prose}\n`.replaceAll('\n', lineEnd);
  });

describe('updates', () => {
  it('leave nothing stale, and nothing to do a second time', () => {
    fc.assert(
      fc.property(notes, (source) => {
        const after = updated(source);
        const stale = work(after)
          .diagnostics()
          .filter(({ code }) => code.startsWith('stale'));
        expect(stale).toEqual([]);
        expect(updated(after)).toBe(after);
      }),
      runs(250),
    );
  });

  it('touch no block and nothing beside numbers and tables', () => {
    fc.assert(
      fc.property(notes, (source) => {
        const after = updated(source);
        expect(readNote(after).blocks.map(({ text }) => text)).toEqual(readNote(source).blocks.map(({ text }) => text));
        const rest = (text: string) =>
          text
            .split(/\r\n|\n/)
            .filter((line) => !/^[ >]*(?:\|.*)?$/.test(line))
            .map((line) => line.replace(/\[[^\]]*\]/g, '[]'));
        expect(rest(after)).toEqual(rest(source));
        expect(after.includes('\r\n')).toBe(source.includes('\r\n'));
        expect(after.replaceAll('\r\n', '').includes('\n')).toBe(source.replaceAll('\r\n', '').includes('\n'));
      }),
      runs(250),
    );
  });

  it('write the digits of a number and leave its unit, emphasis and words', () => {
    const source =
      '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\n[some **140**&nbsp;mmol/L](infusion:bag/sodium)\n';
    expect(updated(source)).toBe(source.replace('140', '154'));
  });
});

describe('the card', () => {
  const source =
    '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\n[140 mmol/L](infusion:bag/sodium)\n\n<!-- infusion:compare bag by sodium -->\n\n<!-- /infusion -->\n';
  const card = (at: string) => work(source).hover(source.indexOf(at) + 1);

  it('of a bound number says whether it holds, and how the result comes about', () => {
    const shown = card('[140');
    expect(source.slice(shown!.span.start, shown!.span.end)).toBe('[140 mmol/L](infusion:bag/sodium)');
    expect(shown!.markdown).toContain('140 mmol/L is written, and it works out at 154');
    expect(shown!.markdown).toContain('How it was worked out');
  });

  it('of a mark holds the comparison', () => {
    expect(card('<!-- infusion')!.markdown).toContain('sodium, mmol/L');
    expect(card('<!-- /infusion')!.markdown).toContain('154');
  });
});
