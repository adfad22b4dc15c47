/** Each fix of each wrong example is taken by itself, in every place a block may stand, and the note is read again. */
import { describe, expect, it } from 'vitest';
import { CHECKS, type Check } from '../../src/checks/index.ts';
import { createNoteService } from '../../src/service/index.ts';
import type { CodeFix } from '../../src/service/types.ts';
import { annotated, fenced, findings } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';

const SEVERITIES = ['hint', 'information', 'warning', 'error'];

function fixesIn(source: string): readonly CodeFix[] {
  return createNoteService().work('file:///a.md', source).fixes({ start: 0, end: source.length });
}

function resultsIn(source: string): readonly string[] {
  const note = createNoteService().work('file:///a.md', source);
  return note.results({ start: 0, end: source.length }).map(({ text }) => text);
}

function applied(source: string, { edits }: CodeFix): string {
  return edits.reduceRight(
    (text, { span, text: put }) => text.slice(0, span.start) + put + text.slice(span.end),
    source,
  );
}

function severest(source: string): number {
  return Math.max(-1, ...findings(source).map(({ severity }) => SEVERITIES.indexOf(severity)));
}

/** A did-you-mean may lead to what is meant and to what is wrong in another way: only its own finding must go. */
function mends(source: string, fix: CodeFix, check: Check) {
  const after = applied(source, fix);
  const left = findings(after).filter(({ code }) => code === check.code);
  expect(left.map(({ message }) => message)).toEqual([]);
  expect(severest(after)).toBeLessThanOrEqual(SEVERITIES.indexOf(check.severity));
}

const mendable = CHECKS.flatMap((check) =>
  check.wrong
    .filter(({ open }) => !open)
    .map((example) => [check.code, annotated(example.block).text, check, example] as const)
    .filter(([, text, , example]) => fixesIn(fenced(text, example)).length > 0),
);

describe.each(mendable)('%s: %s', (_, block, check, example) => {
  it('is mended by each of its fixes', () => {
    const source = fenced(block, example);
    for (const fix of fixesIn(source)) {
      expect(fix.title).toMatch(/^(?:Write|Close|Leave) [^\n]+$/);
      mends(source, fix, check);
    }
  });
});

/** An example that is a whole note already stands where it stands. */
describe.each(mendable.filter(([, , , { note }]) => !note))('%s: %s', (_, block, check) => {
  it('is mended wherever the block stands', () => {
    for (const { wrap } of wrappings) {
      const source = wrap(block);
      for (const fix of fixesIn(source)) mends(source, fix, check);
    }
  });
});

describe('fixes', () => {
  it('are offered by the checks whose mend is plain', () => {
    const codes = new Set(mendable.map(([code]) => code));
    expect([...codes].sort()).toEqual([
      'ambiguous-name',
      'broken-link',
      'claim-mismatch',
      'missing-volume',
      'naked-decimal',
      'nominal-claim',
      'number-form',
      'number-run-into-unit',
      'ratio-strength',
      'stale-number',
      'stale-table',
      'trailing-zero',
      'unknown-name',
      'unknown-observable',
      'unknown-unit',
      'unsafe-abbreviation',
      'unused-accept',
      'volume-added',
    ]);
  });

  const titles = (block: string) => fixesIn(fenced(block)).map(({ title }) => title);

  it.each([
    ['145 mmol/L', '154 mmol/L'],
    ['145.0 mmol/L', '154.0 mmol/L'],
    ['145.00 mEq/L ± 0.5 mEq/L', '154.00 mEq/L ± 0.5 mEq/L'],
  ])('write what a claim works out at as it is written: %s', (written, mended) => {
    const block = `mixture bag\n  9 g sodium chloride\n  water to 1 L\n  claim sodium ${written}`;
    expect(titles(block)).toEqual([`Write ‘${mended}’, as it works out`]);
  });

  it('write more digits than a claim has where it would come to nothing', () => {
    const block = 'mixture bag\n  0.3 mmol potassium chloride\n  water to 1 L\n  claim potassium 3 mmol/L';
    expect(titles(block)).toEqual(['Write ‘0.3 mmol/L’, as it works out']);
  });

  it('say which change a number or choose one', () => {
    const of = (block: string) =>
      fixesIn(fenced(block)).map(({ changesNumber, preferred }) => [changesNumber, preferred]);
    expect(of('mixture bag\n  1.0 L water')).toEqual([[false, true]]);
    expect(of('mixture bag\n  10 cc water')).toEqual([[false, true]]);
    expect(of('mixture bag\n  1,000 mL water')).toEqual([
      [true, false],
      [true, false],
    ]);
    expect(of('mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 145 mmol/L')).toEqual([[true, false]]);
  });

  it('never make one symbol of another', () => {
    expect(titles('mixture bag\n  1 L HCl')).toEqual([]);
    expect(titles('mixture bag\n  1 L water\n  2 g MSO4')).toEqual([
      'Write ‘magnesium sulfate’',
      'Write ‘morphine sulfate’',
    ]);
  });

  it('put the word for the sign before a rate', () => {
    const source = fenced('give 1 L sodium chloride 0.9% @ 100 mL/h');
    const [fix] = fixesIn(source);
    expect(applied(source, fix!)).toContain('0.9% at 100 mL/h');
  });

  const NOTE = (block: string) =>
    `> - \`\`\`infusion\n${block.replace(/^/gm, '>   ')}\n>   \`\`\`\n`.replaceAll('\n', '\r\n');
  /** After the one fix of that title, the block in a list in a quotation with CR LF. */
  const fixedBy = (block: string, title: RegExp) => {
    const source = NOTE(block);
    const [fix, ...more] = fixesIn(source).filter((one) => title.test(one.title));
    expect(more).toEqual([]);
    return applied(source, fix!);
  };

  it('make room for what is added, before the first of it', () => {
    const block = 'mixture drip\n  1 L sodium chloride 0.45% # bag\n  3 x 50 mL sodium bicarbonate 8.4%\n  show volume';
    const mended = block.replace('  3 x', '  withdraw 150 mL\n  3 x');
    expect(fixedBy(block, /withdraw/)).toBe(NOTE(mended));
    expect(resultsIn(NOTE(mended))).toContain('= 1000 mL');
  });

  it('do not make room in a bag that is hung after its additive', () => {
    expect(titles('mixture drip\n  150 mL sodium bicarbonate 8.4%\n  1 L sodium chloride 0.45%')).toEqual([]);
  });

  it('write the solute before the liquid that it is made up with', () => {
    const block = 'mixture salty\n  1 L water\n  # dry\n  200 g sodium chloride';
    expect(fixedBy(block, /solute first/)).toBe(
      NOTE('mixture salty\n  200 g sodium chloride\n  # dry\n  water to 1 L'),
    );
    expect(titles(`${block}\n  10 mL potassium chloride 2 mmol/mL`)).not.toContain(
      expect.stringMatching(/solute first/),
    );
  });

  it('ask for a volume with a word in its place, which is found in turn', () => {
    const mended = fixedBy('mixture bag\n  9 g sodium chloride\n  claim sodium 154 mmol/L', /water to/);
    expect(mended).toBe(NOTE('mixture bag\n  9 g sodium chloride\n  water to volume\n  claim sodium 154 mmol/L'));
    expect(findings(mended).map(({ code }) => code)).toEqual(['syntax']);
  });

  it('leave an acceptance with its line', () => {
    const block = 'mixture bag\n  9.0 g sodium chloride\n  accept trailing-zero because "as printed"\n  show volume';
    expect(fixedBy(block, /water to/)).toBe(NOTE(block.replace('\n  show', '\n  water to volume\n  show')));
  });

  it('begin a substance of one’s own where one is measured, with a word in place of its number', () => {
    const block = 'mixture bag\n  1 L water\n  2 g levocarnitine\nshow bag volume\n\n';
    const mended = fixedBy(block, /substance/);
    expect(mended).toBe(NOTE(block.replace(/\n\n$/, '\nsubstance levocarnitine\n  molar mass number g/mol\n\n')));
    expect(findings(mended).map(({ code }) => code)).toEqual(['syntax']);
    expect(titles('mixture first\n  1 L water\nmixture other\n  100 mL something-else')).toEqual([]);
  });

  it('are those of the findings that the span touches', () => {
    const source = fenced('mixture bag\n  1.0 L water\n  .5 L water');
    const note = createNoteService().work('file:///a.md', source);
    const at = source.indexOf('.5');
    expect(note.fixes({ start: at, end: at }).map(({ title }) => title)).toEqual(['Write ‘0.5’']);
    expect(note.fixes({ start: 0, end: 0 })).toEqual([]);
  });
});

describe('a block that is not closed', () => {
  /** Without its last fence: the closing one. */
  const unclosed = (source: string) => {
    const [last] = [...source.matchAll(/(?:\r\n|\n|\r)[ \t>]*(?:`{3,}|~{3,})(?=[\r\n]|$)/g)].slice(-1);
    return source.slice(0, last!.index) + source.slice(last!.index + last![0].length);
  };

  it.each(wrappings.map(({ name, wrap }) => [name, wrap] as const))('is closed as %s', (_, wrap) => {
    for (const block of ['mixture bag\n  1 L sodium chloride 0.9%\n\nshow bag', 'mixture bag', '', '\n\n']) {
      const source = unclosed(wrap(block));
      expect(findings(source).map(({ code }) => code)).toContain('unclosed-fence');
      const [fix] = fixesIn(source).filter(({ title }) => title === 'Close the block');
      expect(findings(applied(source, fix!)).map(({ code }) => code)).not.toContain('unclosed-fence');
    }
  });

  it('keeps what stands below it out', () => {
    const source = '- item\n\n  ```infusion\n  mixture bag\n    1 L water\n\n  Words.\n';
    const [fix] = fixesIn(source);
    expect(applied(source, fix!)).toBe('- item\n\n  ```infusion\n  mixture bag\n    1 L water\n  ```\n\n  Words.\n');
    expect(fix).toMatchObject({ changesNumber: false, preferred: true });
  });
});
