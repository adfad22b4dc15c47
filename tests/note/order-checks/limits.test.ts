/** The limits that orders are held against: each is used, each can be shown. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { defaultLimits, limitIds } from '../../../src/engine/index.ts';

const CHECKS = new URL('../../../src/note/order-checks/', import.meta.url);
const source = readdirSync(CHECKS)
  .map((name) => readFileSync(new URL(name, CHECKS), 'utf8'))
  .join('\n');

describe('the limits of orders', () => {
  it('have an id each', () => {
    expect(new Set(limitIds()).size).toBe(limitIds().length);
  });

  it('are each taken by a check', () => {
    expect(limitIds().filter((id) => !source.includes(`'${id}'`))).toEqual([]);
  });

  it('are known to every check that takes one', () => {
    const taken = [...source.matchAll(/(?:limit|grown|young): '([a-z-]+)'|limitOf\(scene, '([a-z-]+)'\)/g)];
    const ids = taken.map(([, candidate, alone]) => candidate ?? alone);
    expect(ids.length).toBeGreaterThan(40);
    expect(ids.filter((id) => !limitIds().includes(id!))).toEqual([]);
  });

  it.each(['UK', 'US', null] as const)('read as sentences, by the practice of %s', (region) => {
    for (const { title, value, unit, source: from, disagree } of defaultLimits(region).values()) {
      expect(title).toMatch(/^[a-z].*[a-z]$/);
      expect(value.gt(0), title).toBe(true);
      expect(unit.symbol).not.toBe('');
      expect(from.length, title).toBeGreaterThan(5);
      if (disagree !== null) expect(disagree).toMatch(/^[A-Z0-9].*\.$/);
    }
  });
});
