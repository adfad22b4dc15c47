/** Twice as much takes about twice the time, whatever it is much of. */
import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../src/markdown/index.ts';
import { DEFAULT_POLICY, NO_NOTES } from '../../src/note/index.ts';
import { meniscusPreview } from '../../src/preview/plugin.ts';
import { applied, formattingOf, previewOf, reportOf, updateOf } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';

const times = (count: number, of: (index: number) => string, between = '\n') =>
  Array.from({ length: count }, (_, index) => of(index)).join(between);
const BAG = fenced('mixture bag\n  1 L sodium chloride 0.9%');

/** Notes by a size at which they take some milliseconds. */
const NOTES: readonly (readonly [what: string, size: number, of: (size: number) => string])[] = [
  ['a long line', 10_000, (n) => fenced(`mixture a\n  1 L ${'water '.repeat(n)}`)],
  ['lines', 150, (n) => fenced(`mixture a\n${'  1 mL sodium chloride 0.9%\n'.repeat(n)}`)],
  ['blocks', 40, (n) => times(n, (index) => fenced(`mixture m${index}x\n  1 L sodium chloride 0.9%`))],
  ['names', 150, (n) => fenced(times(n, (index) => `mixture m${index}x\n  1 L water`))],
  ['one name given again', 150, (n) => fenced('mixture a\n  1 L water\n'.repeat(n))],
  [
    'names one letter apart that are not known',
    40,
    (n) => fenced(`mixture a\n${times(n, (i) => `  1 L sodium chlorid${i}e`)}`),
  ],
  [
    'mixtures each made from the one before',
    60,
    (n) => fenced(`mixture m0x\n  1 L water\n${times(n, (i) => `mixture m${i + 1}x\n  1 L m${i}x`)}`),
  ],
  ['mixtures each made from the one after', 60, (n) => fenced(times(n, (i) => `mixture m${i}x\n  1 L m${i + 1}x`))],
  ['a circle of mixtures', 60, (n) => fenced(times(n, (i) => `mixture m${i}x\n  1 L m${(i + 1) % n}x`))],
  ['remarks', 400, (n) => fenced(`mixture a\n${'  1 L water # remark\n# remark\n'.repeat(n / 4)}`)],
  ['one long remark', 20_000, (n) => fenced(`mixture a # ${'remark '.repeat(n)}\n  1 L water`)],
  ['bound numbers', 60, (n) => `${BAG}\n${'[154 mmol/L](infusion:bag/sodium) and\n'.repeat(n)}`],
  ['bound numbers in one paragraph', 60, (n) => `${BAG}\n${'[1 mmol/L](infusion:bag/sodium) '.repeat(n)}`],
  [
    'marked tables',
    20,
    (n) => `${BAG}\n${'<!-- infusion:compare bag by sodium -->\n\n<!-- /infusion -->\n\n'.repeat(n)}`,
  ],
  ['marks that nothing closes', 100, (n) => `${BAG}\n${'<!-- infusion:compare bag by sodium -->\n\n'.repeat(n)}`],
  ['claims', 60, (n) => fenced(`mixture a\n  1 L sodium chloride 0.9%\n${'  claim sodium 154 mmol/L\n'.repeat(n)}`)],
  ['questions', 60, (n) => fenced(`mixture a\n  1 L sodium chloride 0.9%\n${'  show sodium, osmolarity\n'.repeat(n)}`)],
  ['comparisons', 20, (n) => fenced('compare NS, water by sodium\n'.repeat(n))],
  ['columns of a comparison', 5, (n) => fenced(`compare ${times(n, () => 'NS', ', ')} by sodium`)],
  [
    'mixtures to be solved',
    20,
    (n) =>
      fenced(
        times(n, (i) => `mixture m${i}x\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L`),
      ),
  ],
  [
    'tolerances',
    40,
    (n) => fenced(times(n, (i) => `mixture m${i}x\n  1 L ± 5 % sodium chloride 0.9%\n  1 L ± 5 % water`)),
  ],
  ['notes used', 200, (n) => fenced(times(n, (i) => `use ./a${i}.md`))],
  ['acceptances', 60, (n) => fenced(`mixture a\n  1 L 0.45 NS\n${'  accept ambiguous-name because "so"\n'.repeat(n)}`)],
  ['fences in quotations', 60, (n) => times(n, (i) => `> > - \`\`\`infusion\n> >   mixture m${i}x\n> >   \`\`\`\n`)],
  ['front matter', 3_000, (n) => `---\n${'a: 1\n'.repeat(n)}---\n${BAG}`],
  [
    'link definitions',
    300,
    (n) => `${BAG}\n${times(n, (i) => `[n${i}]: infusion:bag/sodium`)}\n\n${times(n, (i) => `[154 mmol/L][n${i}]`)}`,
  ],
];

/** Marks of which many readers make too much. */
const MARKS = [
  '(',
  ')',
  'x',
  'x ',
  'in ',
  '"',
  '“',
  '`',
  '[',
  ']',
  '[a](',
  '![',
  '<',
  '<a ',
  '&',
  '*',
  '_',
  '1 x ',
  '? ',
  '±',
  '/',
  '%',
  ',',
  '.',
  '-',
  '#',
  ' #',
  '\t',
  '\u0000',
  '\ud800',
  'é',
  '9',
  '1/',
  '|',
  '~',
  'infusion',
  '\\',
  ':',
  '<!--',
  '] [',
  '**a ',
  '{',
];

/** Of which rewriting takes time that checking does not. */
const REWRITES = { lines: true, blocks: true, remarks: true, 'bound numbers': true, 'marked tables': true };

type Work = (source: string) => unknown;
const CHECKED: Work = (source) => reportOf(source);
const PREVIEWED: Work = (source) => previewOf(source, DEFAULT_POLICY, NO_NOTES);
const REWRITTEN: Work = (source) => [applied(source, formattingOf(readNote(source))), updateOf(source)];

/** Milliseconds of the processor, which a busy machine hardly changes: the least of some runs. */
function taken(work: () => unknown, most = 0): number {
  let least = Infinity;
  for (let run = 0; run < 3 && least > most; run += 1) {
    const before = process.cpuUsage();
    work();
    least = Math.min(least, process.cpuUsage(before).user / 1000);
  }
  return least;
}

/** Four times as much takes less than three times four times the time; what takes less than 20 ms is not measured. */
function expectLinear(work: (source: string) => unknown, of: (size: number) => string, size: number): void {
  const [small, large] = [of(size), of(4 * size)];
  work(small);
  const base = Math.max(
    taken(() => work(small)),
    20,
  );
  expect(taken(() => work(large), 12 * base)).toBeLessThanOrEqual(12 * base);
}

describe('time is in proportion to', () => {
  it.each(NOTES)('%s', (what, size, of) => {
    expectLinear(CHECKED, of, size);
    expectLinear(PREVIEWED, of, size);
    if (what in REWRITES) expectLinear(REWRITTEN, of, size);
  });
});

describe('time is in proportion to the length of a text of nothing but', () => {
  it.each(MARKS.map((mark) => [JSON.stringify(mark), mark]))('%s', (_, mark) => {
    const line = (n: number) => fenced(`mixture a\n  1 L ${mark.repeat(n)}\n  ${mark.repeat(n)}\n`);
    const lines = (n: number) => fenced(`mixture a\n${`${mark.repeat(300)}\n`.repeat(n)}`);
    const prose = (n: number) => `${BAG}\n${mark.repeat(n)}\n`;
    const check = (source: string) => {
      reportOf(source);
      formattingOf(readNote(source));
    };
    expectLinear(check, line, 400);
    expectLinear(check, lines, 4);
    expectLinear(check, prose, 600);
  });
});

it('the preview takes time in proportion to the blocks it draws', () => {
  const preview = new MarkdownIt().use(meniscusPreview);
  expectLinear(
    (source) => preview.render(source),
    (n) => times(n, (i) => fenced(`mixture m${i}x\n  1 L water`)),
    10,
  );
});
