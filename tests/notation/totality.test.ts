/** Any text is read: never a throw, at most one statement a line, every span inside the text and inside its node's. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BlockSyntax, Span } from '../../src/notation/index.ts';
import { keyOf, LIMITS, normalise, parseBlock, parseFluid } from '../../src/notation/index.ts';
import { runs } from '../runs.ts';
import { anyText, GOOD, lineEnd, soup } from './arbitrary-blocks.ts';
import { print } from './print.ts';

/** Every node below `value` that has a span, with the span it must lie in. */
function* nodes(value: unknown, within: Span): Generator<{ readonly node: AnyNode; readonly within: Span }> {
  if (typeof value !== 'object' || value === null) return;
  const own = 'span' in value ? (value as AnyNode) : null;
  if (own !== null) yield { node: own, within };
  for (const [key, child] of Object.entries(value)) {
    // a unit and a decimal are the engine's, unless they are nodes with a span of their own
    const foreign = (key === 'unit' || key === 'value') && !('span' in Object(child));
    if (key !== 'span' && !foreign) yield* nodes(child, own?.span ?? within);
  }
}

interface AnyNode {
  readonly span: Span;
  readonly text?: string;
  readonly key?: string;
}

function inside(inner: Span, outer: Span): boolean {
  return outer.start <= inner.start && inner.start < inner.end && inner.end <= outer.end;
}

/** What is unsound in a block that was read; nothing, one hopes. */
function complaints(text: string, { statements, faults }: BlockSyntax): string[] {
  const wrong: string[] = [];
  const check = (holds: boolean, what: string, node: unknown) => {
    if (!holds) wrong.push(`${what}: ${JSON.stringify(node)}`);
  };
  for (const { node, within } of nodes(statements, { start: 0, end: text.length })) {
    const written = text.slice(node.span.start, node.span.end);
    check(inside(node.span, within), 'outside its node', node);
    if (node.key !== undefined) check(node.key === keyOf(written) && node.key === keyOf(node.text!), 'key', node);
    else if (node.text !== undefined && /^["“”„‟]/.test(written))
      check(written.slice(1, -1) === node.text, 'title', node);
    else if (node.text !== undefined) check(written === node.text, 'text', node);
  }
  const ends = [...text.matchAll(/\r\n?|\n/g)].map(({ index }) => index);
  const lineOf = (offset: number) => ends.filter((end) => end < offset).length;
  statements.forEach((node, index) => {
    check(index === 0 || statements[index - 1]!.line < node.line, 'more than one a line', node);
    check(lineOf(node.span.start) === node.line && lineOf(node.span.end) === node.line, 'line', node);
    const own = faults.filter(({ span }) => inside(span, node.span));
    check(node.kind !== 'unread' || own.length === 1, 'faults of an unread line', node);
  });
  for (const fault of faults) {
    check(
      statements.some(({ span }) => inside(fault.span, span)),
      'outside every statement',
      fault,
    );
    if ('found' in fault) check(fault.found === text.slice(fault.span.start, fault.span.end), 'found', fault);
  }
  return wrong;
}

test('the good block is good', () => {
  expect(parseBlock(GOOD).faults).toEqual([]);
  expect(print(parseBlock(GOOD)).filter((line) => line.startsWith('(unread'))).toEqual([]);
});

describe('any text', () => {
  test('is read with sound spans', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(complaints(text, parseBlock(text))).toEqual([]);
      }),
      runs(600),
    );
  });

  test('is a fluid or is none', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const fluid = parseFluid(text);
        if (fluid === null) return;
        const whole = { start: 0, end: text.length };
        expect([...nodes(fluid, whole)].filter(({ node, within }) => !inside(node.span, within))).toEqual([]);
      }),
      runs(300),
    );
  });

  test('reads line by line: a block is the sum of its lines', () => {
    fc.assert(
      fc.property(anyText, lineEnd, (text, end) => {
        const lines = text.split(/\r\n?|\n/);
        const alone = lines.flatMap((line) => print(parseBlock(line)));
        expect(print(parseBlock(lines.join(end)))).toEqual(alone);
      }),
      runs(300),
    );
  });

  test('reads the same with straight and typographic characters', () => {
    fc.assert(
      fc.property(soup, (text) => {
        const typographic = text.replaceAll("'", '’').replaceAll('-', '−').replaceAll(' ', '\u00a0');
        expect(print(parseBlock(typographic)).map(normalise)).toEqual(print(parseBlock(text)).map(normalise));
      }),
      runs(300),
    );
  });
});

describe('growth', () => {
  test('twice the lines are twice the statements and the faults', () => {
    const text = `${GOOD}\n10 mll water\nmixture\n1,000 mL water\n`;
    const once = parseBlock(text);
    const many = parseBlock(text.repeat(64));
    expect(many.statements).toHaveLength(64 * once.statements.length);
    expect(many.faults).toHaveLength(64 * once.faults.length);
  });

  test.each([
    ['digits', '1'],
    ['commas', ','],
    ['commas between digits', '1,'],
    ['points', '1.'],
    ['slashes', '1/'],
    ['letters that look like digits', 'O1l'],
    ['quotation marks', '"“'],
    ['questions', '?'],
    ['times', '3x'],
    ['plus-minus', '±5mL'],
    ['numbers', '1 '],
    ['thousands', '1 000 '],
    ['words to make up', 'to up qs '],
    ['hyphens', '-1'],
    ['percent signs', '5%'],
    ['combining marks', 'e\u0301'],
  ])('a block of lines of nothing but %s is read to its end', (_, unit) => {
    const fill = (head: string) => (head + unit.repeat(LIMITS.lineLength)).slice(0, LIMITS.lineLength);
    const lines = ['', '1 L ', 'claim ', 'mixture ', 'give a ', 'water ', '1 L water '].map(fill);
    const block = parseBlock(lines.concat('show sodium').join('\n'));
    expect(block.statements.length).toBeGreaterThan(lines.length - 2);
    expect(block.statements.at(-1)).toMatchObject({ kind: 'show', line: lines.length });
  });
});
