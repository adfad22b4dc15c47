/** Thirty ordinary, correct fluids and admixtures raise no error and no warning, however the block is wrapped. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readNote } from '../src/markdown/index.ts';
import { workNote } from '../src/note/index.ts';
import { diagnosticsOf } from '../src/service/diagnostics.ts';
import { wrappings } from './markdown/wrappings.ts';

const source = readFileSync(new URL('../test-fixtures/quiet.md', import.meta.url), 'utf8');

function loud(text: string) {
  return diagnosticsOf(workNote(readNote(text)))
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ code, span, message }) => `${code}: ${text.slice(span.start, span.end)}: ${message}`);
}

describe('the shelf', () => {
  const shelf = readFileSync(new URL('../test-fixtures/shelf.md', import.meta.url), 'utf8');

  it('holds every fluid with its printed label, and raises no error and no warning', () => {
    const { mixtures } = workNote(readNote(shelf));
    expect(mixtures.length).toBeGreaterThanOrEqual(80);
    expect(mixtures.filter(({ state }) => state !== 'complete').map(({ name }) => name)).toEqual([]);
    expect(loud(shelf)).toEqual([]);
  });
});

describe('the orders', () => {
  const orders = readFileSync(new URL('../test-fixtures/orders.md', import.meta.url), 'utf8');

  it('are at least thirty, and raise no error and no warning', () => {
    expect(orders.match(/^give /gm)?.length).toBeGreaterThanOrEqual(30);
    const { mixtures } = workNote(readNote(orders));
    expect(mixtures.filter(({ state }) => state !== 'complete').map(({ name }) => name)).toEqual([]);
    expect(loud(orders)).toEqual([]);
  });
});

describe('the quiet note', () => {
  it('holds at least thirty mixtures, all worked out', () => {
    const { mixtures } = workNote(readNote(source));
    expect(mixtures.length).toBeGreaterThanOrEqual(30);
    expect(mixtures.filter(({ state }) => state !== 'complete').map(({ name }) => name)).toEqual([]);
  });

  it('raises no error and no warning', () => {
    expect(loud(source)).toEqual([]);
  });

  it.each(wrappings.map(({ name, wrap }) => [name, wrap] as const))('stays quiet wrapped as %s', (_, wrap) => {
    const blocks = readNote(source).blocks.map(({ text }) => text);
    const whole = wrap(blocks.join('\n'));
    expect(workNote(readNote(whole)).mixtures.length).toBeGreaterThanOrEqual(30);
    expect(loud(whole)).toEqual([]);
  });
});
