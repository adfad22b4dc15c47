/** The text of a policy file as JSON whose every part knows its place. */
import { createScanner, type Node, type ParseError, parseTree, type SyntaxKind } from 'jsonc-parser';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { PolicyProblem } from './faults.ts';

export type JsonNode = { readonly at: SourceSpan } & (
  | { readonly kind: 'object'; readonly members: readonly JsonMember[] }
  | { readonly kind: 'list'; readonly items: readonly JsonNode[] }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'truth'; readonly value: boolean }
  /** A number or null: no entry of a policy is one. */
  | { readonly kind: 'other' }
);

export interface JsonMember {
  readonly key: string;
  readonly keyAt: SourceSpan;
  readonly value: JsonNode;
}

export type JsonRead =
  | { readonly ok: true; readonly node: JsonNode }
  | { readonly ok: false; readonly at: SourceSpan; readonly problem: PolicyProblem };

/** A policy is something a person wrote. In UTF-16 units. */
const LARGEST_POLICY = 1024 * 1024;
/** A policy has three levels; more is a stuck key. */
const DEEPEST = 16;

/** Strict JSON, without comments or commas before a bracket. Never throws. */
export function readJson(source: string): JsonRead {
  const start = { start: 0, end: Math.min(1, source.length) };
  if (source.length > LARGEST_POLICY) {
    return { ok: false, at: start, problem: { problem: 'too-large', most: LARGEST_POLICY } };
  }
  const text = source.replace(/^\ufeff/, ' ');
  const tooDeep = beyondDepth(text);
  if (tooDeep) return { ok: false, at: tooDeep, problem: { problem: 'too-deep', most: DEEPEST } };
  const errors: ParseError[] = [];
  const root = parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  const [error] = errors;
  if (error || !root) {
    const { offset, length } = error ?? { offset: 0, length: text.length };
    const line = text.slice(0, offset).split(/\r\n|\n|\r/).length;
    return { ok: false, at: seen(offset, length, text), problem: { problem: 'not-json', line } };
  }
  return { ok: true, node: nodeOf(root) };
}

/** Kinds of tokens by their number: the package's own names for them do not outlive compiling. */
const OPEN: readonly SyntaxKind[] = [1, 3];
const CLOSE: readonly SyntaxKind[] = [2, 4];
const END: SyntaxKind = 17;

/** The first bracket that lies too deep: the reader behind this calls itself once a level. */
function beyondDepth(text: string): SourceSpan | null {
  const scanner = createScanner(text, true);
  let depth = 0;
  for (let token = scanner.scan(); token !== END; token = scanner.scan()) {
    if (OPEN.includes(token)) depth += 1;
    else if (CLOSE.includes(token)) depth -= 1;
    if (depth > DEEPEST) return { start: scanner.getTokenOffset(), end: scanner.getTokenOffset() + 1 };
  }
  return null;
}

/** A place that can be underlined: what is missing at the end is shown at the last character. */
function seen(offset: number, length: number, { length: end }: string): SourceSpan {
  const start = Math.max(0, Math.min(offset, end - 1));
  return { start, end: Math.min(Math.max(offset + length, start + 1), end) };
}

function nodeOf(node: Node): JsonNode {
  const at = placeOf(node);
  switch (node.type) {
    case 'object':
      return { kind: 'object', at, members: (node.children ?? []).flatMap(memberOf) };
    case 'array':
      return { kind: 'list', at, items: (node.children ?? []).map(nodeOf) };
    case 'string':
      return { kind: 'text', at, text: node.value };
    case 'boolean':
      return { kind: 'truth', at, value: node.value };
    default:
      return { kind: 'other', at };
  }
}

function memberOf({ children: [key, value] = [] }: Node): readonly JsonMember[] {
  return key && value ? [{ key: key.value, keyAt: placeOf(key), value: nodeOf(value) }] : [];
}

function placeOf({ offset, length }: Node): SourceSpan {
  return { start: offset, end: offset + length };
}
