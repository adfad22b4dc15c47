/** A worked note as plain data, so that two of them can be compared whatever objects they are made of. */
import { Decimal } from '../../../src/engine/decimal.ts';
import type { WorkedNoteModel } from '../../../src/note/index.ts';
import { WhatIf } from '../../../src/note/what-if/what-if.ts';

/** Everything that a note came to: findings, results, places; as JSON. */
export function shapeOf(model: WorkedNoteModel): string {
  const { source: _, policy: _policy, ...rest } = model;
  return JSON.stringify(rest, plain, 1);
}

function plain(this: unknown, key: string, value: unknown): unknown {
  const held = key === '' ? value : (this as Record<string, unknown>)[key];
  if (Decimal.isDecimal(held)) return held.toString();
  if (held instanceof Map) return [...held].map(([of, what]) => [named(of), what]);
  if (held instanceof Set) return [...held].map(named);
  if (typeof held !== 'object' || held === null) return held;
  if (held instanceof WhatIf) return { ...held, rows: held.rows };
  if ('toSource' in held && 'toText' in held) return placed(held as unknown as Placed);
  if ('start' in held && 'end' in held && Object.keys(held).length === 0) return spanOf(held as unknown as Span);
  if ('family' in held && 'gives' in held) return named(held);
  if ('forms' in held || 'molarMass' in held) return named(held);
  return held;
}

interface Span {
  readonly start: number;
  readonly end: number;
}

/** A place that follows its block has no properties of its own. */
function spanOf({ start, end }: Span): Span {
  return { start, end };
}

interface Placed {
  readonly text: string;
  readonly span: Span;
  readonly toSource: (span: { start: number; end: number }) => unknown;
}

function placed(block: Placed): unknown {
  const { text, span } = block;
  return { text, span, whole: block.toSource({ start: 0, end: text.length }) };
}

function named(of: unknown): unknown {
  if (typeof of !== 'object' || of === null || !('name' in of)) return of;
  const { id, name, charge } = of as { id?: unknown; name: unknown; charge?: unknown };
  return `${String(id ?? '')} ${String(name)} ${String(charge ?? '')}`;
}
