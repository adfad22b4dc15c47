/** Lines that open an entity, and `use`. `give`, which is longer, has a file of its own. */
import type { HeaderNode, Title, UseNode } from './ast.ts';
import { cover, type Line } from './line.ts';
import { readName, readNamePhrase } from './names.ts';

/** `mixture NAME ["Title"]`, also stock and patient; after the first word. */
export function readHeader(line: Line, kind: 'mixture' | 'stock' | 'patient'): HeaderNode | null {
  const name = readName(line, line.last());
  if (name === null) return null;
  const title = line.peek()?.kind === 'string' ? line.title() : null;
  return { kind, name, title, ...line.place };
}

/** `substance NAME`, a phrase; after the first word. */
export function readSubstance(line: Line): HeaderNode | null {
  const name = readNamePhrase(line, line.last());
  return name === null ? null : { kind: 'substance', name, title: null, ...line.place };
}

/** `use PATH`, quoted if it has spaces; after the first word. */
export function readUse(line: Line): UseNode | null {
  if (line.done) return line.fail('missing-path', line.last());
  if (line.peek()!.kind === 'string') return { kind: 'use', path: line.title(), ...line.place };
  const start = line.here();
  do line.at += 1;
  while (line.peek()?.glued);
  const span = cover(start, line.last());
  const path: Title = { span, text: line.text(span) };
  return { kind: 'use', path, ...line.place };
}
