/** A line as far as it is written before a place in it. */
import type { Span } from './ast.ts';
import { lexLine, type Token } from './lexer.ts';
import { LIMITS } from './limits.ts';
import { normalise } from './normalise.ts';

export interface Unfinished {
  /** What stands before the word that is being written. */
  readonly tokens: readonly Token[];
  /** That word: up to the place, and to its own end when the place lies inside it. Empty between words. */
  readonly word: Span;
  /** No space lies between the last token and the word. */
  readonly touching: boolean;
}

/** Null in a remark, a title or the middle of a number, and on a line beyond the bounds. */
export function unfinishedAt(text: string, offset: number): Unfinished | null {
  const start = lineStart(text, offset);
  const end = lineEnd(text, offset);
  if (end - start > LIMITS.lineLength) return null;
  const line = normalise(text.slice(start, end));
  const at = offset - start;
  const tokens = lexLine(line, 0, at);
  if (tokens.length > LIMITS.wordsInLine || tokens.some(({ closed }) => !closed) || inRemark(line, tokens, at)) {
    return null;
  }
  const last = tokens.at(-1);
  const writing = last !== undefined && last.end === at && last.word !== '';
  const around = lexLine(line, 0, line.length).find((token) => token.start < at && token.end > at);
  if (around && around.word === '') return null;
  const before = writing ? tokens.slice(0, -1) : tokens;
  const from = writing ? last.start : at;
  const moved = (token: Token) => ({ ...token, start: token.start + start, end: token.end + start });
  return {
    tokens: before.map(moved),
    word: { start: from + start, end: (writing && around ? around.end : at) + start },
    touching: before.at(-1)?.end === from,
  };
}

/** Where the line that holds the offset begins. */
function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && !isLineEnd(text[at - 1]!)) at -= 1;
  return at;
}

function lineEnd(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && !isLineEnd(text[at]!)) at += 1;
  return at;
}

function isLineEnd(character: string): boolean {
  return character === '\n' || character === '\r';
}

/** The lexer stops at a remark: what it left before the place begins with its mark. */
function inRemark(line: string, tokens: readonly Token[], at: number): boolean {
  return line
    .slice(tokens.at(-1)?.end ?? 0, at)
    .trimStart()
    .startsWith('#');
}
