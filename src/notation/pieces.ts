/** A statement taken apart into pieces that are written one way, with the gap that belongs before each. */
import { findUnit } from '../engine/units.ts';
import type { NumberNode, Span, Statement, Title, UnitNode, Words } from './ast.ts';
import { lexLine, type Token } from './lexer.ts';
import { normalise, spacedOnce } from './normalise.ts';

export interface Piece {
  /** Where it begins in the block's text. */
  readonly start: number;
  readonly text: string;
  /** What stands between it and the piece before: a space, or nothing. */
  readonly gap: '' | ' ';
}

/** What the author chose, and what is to be written for it. */
interface Leaf {
  readonly span: Span;
  readonly text: string;
  readonly kind: 'words' | 'title' | 'unit' | 'percent';
}

/** A piece by the company it keeps. */
type Kind = Leaf['kind'] | 'comma' | 'joint' | 'keyword';

/** The pieces of a statement that was read, in order. `text` is that of its block, `normal` the same normalised. */
export function piecesOf(text: string, normal: string, statement: Statement): readonly Piece[] {
  const leaves = leavesOf(text, statement);
  const pieces: Piece[] = [];
  let before: Kind | null = null;
  let read = 0;
  let next = 0;
  for (const token of lexLine(normal, statement.span.start, statement.span.end)) {
    if (token.start < read) continue;
    while (next < leaves.length && leaves[next]!.span.end <= token.start) next += 1;
    const leaf = leaves[next];
    const here = leaf !== undefined && leaf.span.start <= token.start ? leaf : null;
    const kind = here?.kind ?? kindOf(token);
    const gap = before === null ? '' : gapBetween(before, kind, token.glued);
    pieces.push({ start: token.start, text: here?.text ?? keyword(text, token), gap });
    read = here?.span.end ?? token.end;
    before = kind;
  }
  return pieces;
}

function kindOf({ kind }: Token): Kind {
  if (kind === 'comma') return 'comma';
  return kind === 'times' || kind === 'plus-minus' ? 'joint' : 'keyword';
}

/** The notation's own word, in lower case. */
function keyword(text: string, { kind, start, end }: Token): string {
  return kind === 'times' ? 'x' : text.slice(start, end).toLowerCase();
}

const APART: ReadonlySet<Kind> = new Set(['joint', 'unit', 'percent', 'title']);

function gapBetween(before: Kind, after: Kind, glued: boolean): Piece['gap'] {
  if (after === 'comma' || after === 'percent') return '';
  if (before === 'comma' || APART.has(before) || APART.has(after)) return ' ';
  return glued ? '' : ' ';
}

/** The author's own words, numbers, units and titles, in the order written. */
function leavesOf(text: string, statement: Statement): readonly Leaf[] {
  const leaves: Leaf[] = [];
  // what follows a code without a reason is not read
  if (statement.kind === 'accept' && statement.reason === null) {
    const span = { start: statement.code.span.start, end: statement.span.end };
    leaves.push({ span, text: text.slice(span.start, span.end), kind: 'words' });
  } else gather(statement, false, text, leaves);
  return leaves.sort((a, b) => a.span.start - b.span.start);
}

/** `named`: in what names a fluid. */
function gather(node: unknown, named: boolean, text: string, leaves: Leaf[]): void {
  if (typeof node !== 'object' || node === null) return;
  if (isLeaf(node)) leaves.push(leafOf(node, named, text));
  else {
    for (const [key, child] of Object.entries(node)) {
      const names =
        named ||
        key === 'strength' ||
        key === 'subject' ||
        (key === 'items' && 'kind' in node && (node.kind === 'show' || node.kind === 'what-if'));
      if (key !== 'span') gather(child, key === 'tolerance' ? false : names, text, leaves);
    }
  }
}

type LeafNode = Words | NumberNode | UnitNode | Title;

function isLeaf(node: object): node is LeafNode {
  return 'text' in node;
}

function leafOf(node: LeafNode, named: boolean, text: string): Leaf {
  const { span } = node;
  const written = text.slice(span.start, span.end);
  if ('unit' in node) {
    return named && written === '%'
      ? { span, text: written, kind: 'percent' }
      : { span, text: unitSpelling(written), kind: 'unit' };
  }
  if ('key' in node) return { span, text: spacedOnce(written), kind: 'words' };
  return { span, text: written, kind: 'value' in node ? 'words' : 'title' };
}

/** Units whose spelling says something that the canonical one does not, or that are words already. */
const AS_WRITTEN = new Set(['K', 'unit', 'drop']);

/** `ml/hour` → `mL/h`; the unit stays the same one. */
function unitSpelling(written: string): string {
  if (written.startsWith('%')) return spacedOnce(written).replace(/^% ?(?=.)/, '% ');
  return normalise(written)
    .split('/')
    .map((part) => (AS_WRITTEN.has(part) ? part : (findUnit(part)?.symbol ?? part)))
    .join('/');
}
