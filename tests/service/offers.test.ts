/** What is offered for a line besides mending it. No source: our own design. */
import { describe, expect, it } from 'vitest';
import { CHECKS } from '../../src/checks/index.ts';
import { applied, createNoteService } from '../../src/service/index.ts';
import type { CodeFix } from '../../src/service/types.ts';
import { annotated, fenced, findings } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';

const offersIn = (source: string, at = { start: 0, end: source.length }): readonly CodeFix[] =>
  createNoteService().work('file:///a.md', source).offers(at);
const titles = (source: string) => offersIn(source).map(({ title }) => title);

/** As far apart as they get: a note is worked out thrice for each. */
const SOME = wrappings.filter(({ name }) =>
  ['quotation in a list', 'list content behind half a tab', 'lone CR'].includes(name),
);

describe('the acceptance of a finding', () => {
  const blocks = CHECKS.filter(({ severity, code }) => severity !== 'error' && code !== 'unused-accept').flatMap(
    (check) =>
      check.wrong
        .filter(({ note, policy, notes, open }) => !note && !policy && !notes && !open)
        .map((example) => [check.code, annotated(example.block).text] as const),
  );

  it.each(blocks)('takes %s out once it has its reason: %s', (code, block) => {
    for (const source of [fenced(block), ...SOME.map(({ wrap }) => wrap(block))]) {
      const offer = offersIn(source).find(({ title }) => title === `Accept ‘${code}’, with a reason to be written`);
      const empty = applied(source, offer!.edits);
      const without = findings(empty).map((finding) => finding.code);
      expect(without).toContain('accept-without-reason');
      expect(without).toContain(code);
      const accepted = empty.replace('because ""', 'because "known"');
      expect(findings(accepted).map((finding) => finding.code)).toEqual([]);
    }
  });

  it('stands below its line, or below the header that it is about, with a place for the reason', () => {
    const bag = '> 1. ```infusion\r\n>    mixture bag # one\r\n>     1.0 L dextrose 5%\r\n>    ```\r\n';
    const [falls, zero] = offersIn(bag);
    expect(applied(bag, falls!.edits)).toBe(
      bag.replace('# one\r\n', '# one\r\n>      accept tonicity-falls-in-body because ""\r\n'),
    );
    expect(applied(bag, zero!.edits)).toBe(bag.replace('5%\r\n', '5%\r\n>     accept trailing-zero because ""\r\n'));
    expect(zero!.snippet).toBe('>     accept trailing-zero because "$1"\r\n$0');
    expect(zero!.finding?.code).toBe('trailing-zero');
  });

  it('is never offered for an error, nor where nothing can be accepted', () => {
    expect(titles(fenced('mixture bag\n  1 L sodum chloride'))).toEqual([]);
    expect(titles(fenced('compare D5W, LR by sodium'))).toEqual([]);
    expect(titles(fenced('mixture bag\n  1 L water\n  accept trailing-zero because "x"'))).toEqual([]);
  });
});

describe('an amount that was solved for', () => {
  const brine = (amount: string, target: string) =>
    fenced(`mixture brine\n  ${amount} sodium chloride 23.4%\n  water to 500 mL\n  target sodium ${target}`);

  it('is written out as it works out, and as it can be measured, each by itself', () => {
    const source = brine('? mL', '513 mmol/L');
    const offers = offersIn(source);
    expect(offers.map(({ title }) => title)).toEqual([
      expect.stringMatching(/^Write ‘64\.0?\d+ mL’, as it works out$/),
      expect.stringMatching(/^Write ‘64 mL’, as can be measured \([^‘]+\)$/),
    ]);
    for (const { changesNumber, preferred, finding, edits } of offers) {
      expect([changesNumber, preferred, finding]).toEqual([true, false, null]);
      const after = applied(source, edits);
      expect(after).not.toContain('?');
      expect(findings(after)).toEqual([]);
      expect(offersIn(after)).toEqual([]);
    }
  });

  it('keeps the unit as it is written, and a count without one', () => {
    expect(titles(brine('? L', '513 mmol/L'))[0]).toMatch(/^Write ‘0\.064\d* L’, as it works out$/);
    const counted = fenced('mixture bag\n  1 L water\n  ? x 50 mL sodium chloride 23.4%\n  target sodium 100 mmol/L');
    const [offer] = offersIn(counted);
    expect(applied(counted, offer!.edits)).toMatch(/\n {2}0\.\d+ x 50 mL/);
  });

  it('is offered on its own line', () => {
    const source = brine('? mL', '513 mmol/L');
    const at = source.indexOf('water');
    expect(offersIn(source, { start: at, end: at })).toEqual([]);
  });
});
