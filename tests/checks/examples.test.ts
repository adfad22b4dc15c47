import { describe, expect, it } from 'vitest';
import { CHECKS } from '../../src/checks/index.ts';
import { annotated, findings, findingsIn } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';

const MENDING = /^[A-Z\d‘][\s\S]*[.?)\]]$/;

describe('the checks', () => {
  it('have a code each, in kebab case', () => {
    const codes = CHECKS.map(({ code }) => code);
    expect(new Set(codes).size).toBe(codes.length);
    for (const code of codes) expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it('word each kind of fault in one place', () => {
    const faults = CHECKS.flatMap((check) => check.faults);
    expect(new Set(faults).size).toBe(faults.length);
  });
});

describe.each(CHECKS.map((check) => [check.code, check] as const))('%s', (code, check) => {
  it('has examples that are wrong and right', () => {
    expect(check.wrong.length).toBeGreaterThan(0);
    expect(check.right.length).toBeGreaterThan(0);
  });

  it.each(check.wrong.map((example) => [example.block, example] as const))(
    'finds, once and in place: %s',
    (_, example) => {
      const { text, marked } = annotated(example.block);
      const { source, found: all } = findingsIn(text, example);
      expect(all.map((finding) => finding.code)).toEqual([code]);
      const [finding] = all;
      expect(finding?.severity).toBe(check.severity);
      if (marked.length > 0) expect(source.slice(finding!.span.start, finding!.span.end)).toBe(marked[0]);
    },
  );

  it.each(check.right.map((example) => [example.block, example] as const))('is silent about: %s', (_, example) => {
    expect(findingsIn(example.block, example).found.filter((finding) => finding.code === code)).toEqual([]);
  });

  it('speaks in sentences, names what was read and what mends it, and leaves out developers’ words', () => {
    for (const example of check.wrong) {
      for (const { parts, message } of findingsIn(annotated(example.block).text, example).found) {
        for (const part of [parts.read, parts.why, parts.mend]) expect(part).toMatch(MENDING);
        expect(message).not.toMatch(/\b(parse|lint|rule|null|undefined|NaN|evaluate|token|invalid)\b|!(?!--)/i);
        expect(message.replace(/‘[^’]*’ was read/, '')).not.toMatch(/\d\.0\b(?! mEq)|(^|\s)\.\d/);
      }
    }
  });
});

describe.each(wrappings.map(({ name, wrap }) => [name, wrap] as const))('in a note wrapped as %s', (_, wrap) => {
  it('each wrong example is found at the same words', () => {
    for (const check of CHECKS) {
      for (const example of check.wrong) {
        if (example.open || example.info || example.policy || example.note) continue;
        const { text, marked } = annotated(example.block);
        const source = wrap(text);
        const shown = findings(source, example.notes).map(({ code, span }) => [
          code,
          source.slice(span.start, span.end),
        ]);
        expect(shown).toEqual([[check.code, marked[0]]]);
      }
    }
  });
});
