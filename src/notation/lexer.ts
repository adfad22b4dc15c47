/** A line of normalised text as words, numbers, titles and marks. Total: every character falls somewhere. */
import { numeralEnd } from './numbers.ts';

type TokenKind = 'word' | 'number' | 'string' | 'comma' | 'times' | 'plus-minus' | 'question';

export interface Token {
  readonly kind: TokenKind;
  /** Offsets into the block's text. */
  readonly start: number;
  readonly end: number;
  /** Normalised. */
  readonly text: string;
  /** A word in lower case; '' for what is none. A lone `x` is one. */
  readonly word: string;
  /** No white space between it and the token before. */
  readonly glued: boolean;
  /** For a title: whether its closing mark stands on the line. */
  readonly closed: boolean;
}

const PLUS_MINUS = '+/-';
const STRAIGHT = '"';
const TYPOGRAPHIC = '“”„‟';

/** The tokens of `text` between `from` and `to`, a line without its end; the comment is left out. */
export function lexLine(text: string, from: number, to: number): Token[] {
  const tokens: Token[] = [];
  let at = from;
  while (at < to) {
    if (text[at] === ' ') {
      at += 1;
      continue;
    }
    const apart = at === from || text[at - 1] === ' ';
    if (text[at] === '#' && apart) break;
    const { kind, end, closed = true } = readToken(text, at, to, apart, tokens.at(-1));
    const written = text.slice(at, end);
    const word = kind === 'word' || kind === 'times' ? written.toLowerCase() : '';
    tokens.push({ kind, start: at, end, text: written, word, glued: !apart, closed });
    at = end;
  }
  return tokens;
}

interface Read {
  readonly kind: TokenKind;
  readonly end: number;
  readonly closed?: boolean;
}

function readToken(text: string, at: number, to: number, apart: boolean, before: Token | undefined): Read {
  const first = text[at]!;
  if (first === STRAIGHT || TYPOGRAPHIC.includes(first)) return readString(text, at, to);
  if (first === ',') return { kind: 'comma', end: at + 1 };
  if (first === '±') return { kind: 'plus-minus', end: at + 1 };
  if (text.startsWith(PLUS_MINUS, at)) return { kind: 'plus-minus', end: at + PLUS_MINUS.length };
  if (first === '?' && (apart || before?.kind === 'times')) return { kind: 'question', end: at + 1 };
  if (first === '×' || first === '*' || isTimes(text, at, to, apart, before)) return { kind: 'times', end: at + 1 };
  if (first === '%' && before?.kind === 'number') return { kind: 'word', end: at + 1 };

  const signAllowed = apart || before?.kind === 'plus-minus';
  const numberAllowed = apart || (before !== undefined && before.kind !== 'word' && before.kind !== 'number');
  if (numberAllowed && (signAllowed || !/[+-]/.test(first))) {
    const end = numeralEnd(text, at);
    // 5-fluorouracil and 1,2-propanediol are words
    if (end > at && !(text[end] === '-' && /\p{L}/u.test(text[end + 1] ?? ''))) return { kind: 'number', end };
    if (end > at) return { kind: 'word', end: wordEnd(text, end, to) };
  }
  return { kind: 'word', end: wordEnd(text, at, to) };
}

/** `x` between a number and what it multiplies (`3x50mL`, `3 x50 mL`), or standing alone. */
function isTimes(text: string, at: number, to: number, apart: boolean, before: Token | undefined): boolean {
  if (text[at] !== 'x' && text[at] !== 'X') return false;
  const alone = at + 1 >= to || text[at + 1] === ' ';
  const counted = before?.kind === 'number' || before?.kind === 'question';
  if (alone) return apart || counted;
  return counted && (text[at + 1] === '?' || numeralEnd(text, at + 1) > at + 1);
}

function wordEnd(text: string, at: number, to: number): number {
  let end = at + 1;
  while (end < to && !' ,"“”„‟±'.includes(text[end]!) && !text.startsWith(PLUS_MINUS, end)) end += 1;
  return end;
}

/** Up to the closing mark of its own kind, else of the other kind, else to the end of the line. */
function readString(text: string, at: number, to: number): Read {
  const own = text[at] === STRAIGHT ? STRAIGHT : TYPOGRAPHIC;
  const other = own === STRAIGHT ? TYPOGRAPHIC : STRAIGHT;
  for (const marks of [own, other]) {
    for (let end = at + 1; end < to; end += 1) {
      if (marks.includes(text[end]!)) return { kind: 'string', end: end + 1 };
    }
  }
  let end = to;
  while (text[end - 1] === ' ') end -= 1;
  return { kind: 'string', end, closed: false };
}
