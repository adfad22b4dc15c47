import { describe, expect, it } from 'vitest';
import { rangeText, valueText } from '../../src/checks/index.ts';
import { decimal, unit } from '../../src/engine/index.ts';
import { fenced, findings } from '../annotated.ts';

describe('a range', () => {
  const told = (low: string, high: string) => {
    const range = [decimal(low), decimal(high)] as const;
    const middle = range[0].plus(range[1]).div(2);
    return `${valueText(middle, unit('mL'), range)}${rangeText(range, 'mL')}`;
  };

  it.each([
    ['950', '1050'],
    ['999.9', '1000.1'],
    ['999.5', '1000.49'],
    ['999.5', '1000.5'],
    ['0.0099999', '0.0100001'],
  ])('from %s to %s never says the same number twice', (low, high) => {
    const [, from, to] = /\((\S+) to (\S+) mL\)$/.exec(told(low, high)) ?? [];
    expect(from).toBeDefined();
    expect(from).not.toBe(to);
  });

  it('without width is one number', () => {
    expect(told('1000', '1000')).toBe('1000 mL');
  });
});

describe('more dilute in the body', () => {
  const why = (fluid: string) =>
    findings(fenced(`mixture bag\n  1 L ${fluid}`)).find(({ code }) => code === 'tonicity-falls-in-body')?.parts.why;

  it('names what leaves the water behind', () => {
    expect(why('dextrose 5%')).toMatch(/^Once its dextrose is used it is hypotonic/);
    expect(why('urea 1.6%')).toMatch(/^Once its urea has entered cells it is hypotonic/);
    expect(why('glycerol 2.6%')).toMatch(/^Once its glycerol /);
    expect(why('dextrose 5% in urea 1%')).toMatch(
      /^Once its dextrose is used and its urea has entered cells it is hypotonic/,
    );
  });
});
