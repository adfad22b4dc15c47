/** What local policy changes on cards, at line ends and in reports. No source: our own design. */
import { describe, expect, it } from 'vitest';
import { createNoteService, readPolicyFile, reportOf } from '../../src/service/index.ts';
import { nameInTerms, sentenceInTerms } from '../../src/service/terms.ts';
import { fenced } from '../annotated.ts';

const BAG = `mixture bag "dextrose 5% for the ward"
  1 L dextrose 5%
  10 mL calcium chloride 1 mmol/mL
  20 mmol potassium as potassium phosphate dibasic
  claim osmolarity 200 mOsm/L`;

const policyOf = (policy: object) => readPolicyFile(JSON.stringify(policy)).policy;

function noteUnder(policy: object, block = BAG) {
  const source = fenced(block);
  const note = createNoteService().work('file:///a.md', source, policyOf(policy));
  const card = (word: string) =>
    (note.hover(source.indexOf(word) + 1)?.markdown ?? '')
      .replace(/!\[([^\]]*)\]\(data:[^)]*\)/g, '![$1](picture)')
      .replaceAll('&#8199;', '');
  return { source, note, card };
}

describe('the preferred sugar', () => {
  it('is named in tables and in what was taken, and the words of the note stay', () => {
    const { card } = noteUnder({ terms: { sugar: 'glucose' } });
    expect(card('bag')).toMatch(/\| glucose \|/);
    expect(card('bag')).not.toMatch(/\| dextrose \|/);
    expect(card('bag')).toContain('dextrose 5% for the ward');
    expect(card('bag')).toContain('dextrose as glucose monohydrate');
    expect(card('1 L dextrose')).toMatch(/\| glucose \|/);
    expect(noteUnder({}).card('bag')).toMatch(/\| dextrose \|/);
  });

  it('is named in sentences where its form is, outside what is quoted', () => {
    const terms = { sugar: 'glucose', amounts: 'mmol' } as const;
    expect(sentenceInTerms('Dextrose monohydrate, ‘dextrose anhydrous’ and its dextrose.', terms)).toBe(
      'Glucose monohydrate, ‘dextrose anhydrous’ and its glucose.',
    );
    expect(sentenceInTerms('dextrose 5 %', terms)).toBe('dextrose 5 %');
    expect(nameInTerms('glucose anhydrous', { sugar: 'dextrose', amounts: 'mmol' })).toBe('dextrose anhydrous');
  });

  it('changes no key and no value of a report', () => {
    const [plain, under] = [{}, { terms: { sugar: 'glucose', amounts: 'mEq' } }].map((policy) =>
      reportOf(fenced(BAG), policyOf(policy)),
    );
    expect(under!.mixtures).toEqual(plain!.mixtures);
  });
});

describe('mEq', () => {
  it('stand first for ions whose charge is fixed', () => {
    const text = noteUnder({ terms: { amounts: 'mEq' } }).card('bag');
    expect(text).toMatch(/calcium\W+\d[\d.]* mEq \W+\d[\d.]* mmol\W/);
    expect(text).toMatch(/potassium\W+\d[\d.]* mEq\b/);
    expect(text).toMatch(/dextrose\W+\d+ mmol/);
    expect(text).toMatch(/hydrogen phosphate\W+\d[\d.]* mmol/);
    expect(text).toMatch(/Per litre\W+.*sodium 0 mEq/);
  });
});

describe('the reference', () => {
  const SALINE = 'mixture bag\n  1 L sodium chloride 0.9%\n  show tonicity in the bag';

  it('holds for cards, for what stands at line ends, and for reports', () => {
    const policy = { 'isotonic-from': '320 mOsm/L', 'free-water-reference': '308 mmol/L' };
    const { note, source, card } = noteUnder(policy, SALINE);
    expect(card('bag')).toContain('Hypotonic in the bag');
    // 1 - 154 / 308
    expect(card('bag')).toMatch(/free water\W+500 mL/);
    const texts = note.results({ start: 0, end: source.length }).map(({ text }) => text);
    expect(texts).toEqual(['= 1000 mL, sodium 154 mmol/L, hypotonic', '= hypotonic']);
    const report = reportOf(source, policyOf(policy));
    expect(report.mixtures[0]!.tonicity).toEqual({ bag: 'hypotonic', body: 'hypotonic' });
    expect(report.shown[0]!.text).toBe('bag: hypotonic');
  });
});

describe('a note that stays while its policy changes', () => {
  it('is worked out anew, and not for the same policy', () => {
    const service = createNoteService();
    const [strict, plain] = [policyOf({ 'claim-tolerance': '1 %' }), policyOf({})];
    const source = fenced('mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 150 mmol/L');
    const codes = (policy: typeof plain) =>
      service
        .work('file:///a.md', source, policy)
        .diagnostics()
        .map(({ code }) => code);
    expect(codes(plain!)).toEqual(['nominal-claim']);
    expect(codes(strict!)).toEqual(['claim-mismatch']);
    expect(service.work('file:///a.md', source, strict)).toBe(service.work('file:///a.md', source, strict));
  });
});
