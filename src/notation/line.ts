/** One line on its way to a statement: its tokens, how far they are read, and what was found wrong. */
import type { NotationFault, NumberNode, Span, SyntaxProblem, Title, Words } from './ast.ts';
import type { Token } from './lexer.ts';
import { keyOf, normalise, spacedOnce } from './normalise.ts';
import { safeForm } from './numbers.ts';

/** A line's place among the others, as every statement carries it. */
export interface Place {
  readonly span: Span;
  readonly line: number;
}

/**
 * Readers move `at` forward over tokens. A reader that cannot go on calls `fail` and returns null; the first fault
 * is the line's only one, since whatever follows it is guesswork.
 */
export class Line {
  at = 0;
  fault: NotationFault | null = null;
  /** Faults that leave the line readable. */
  readonly remarks: NotationFault[] = [];

  constructor(
    private readonly source: string,
    readonly tokens: readonly Token[],
    readonly place: Place,
  ) {}

  get done(): boolean {
    return this.at >= this.tokens.length;
  }

  peek(ahead = 0): Token | undefined {
    return this.tokens[this.at + ahead];
  }

  /** The word at a token in lower case; '' when the token is no word. */
  word(ahead = 0): string {
    return this.peek(ahead)?.word ?? '';
  }

  /** Moves past `words` if the next tokens are exactly these, in lower case. */
  eat(...words: readonly string[]): boolean {
    if (!words.every((word, ahead) => this.word(ahead) === word)) return false;
    this.at += words.length;
    return true;
  }

  /** From token `from` up to, without, token `to`. */
  spanOf(from: number, to: number): Span {
    return { start: this.tokens[from]!.start, end: this.tokens[to - 1]!.end };
  }

  /** The next token, or the last one when none is left: where something is missing. */
  here(): Span {
    const index = Math.min(this.at, this.tokens.length - 1);
    return this.spanOf(index, index + 1);
  }

  /** The token just read. */
  last(): Span {
    return this.spanOf(this.at - 1, this.at);
  }

  rest(): Span {
    return this.spanOf(this.at, this.tokens.length);
  }

  /** As written. */
  text(span: Span): string {
    return this.source.slice(span.start, span.end);
  }

  words(from: number, to: number): Words {
    const span = this.spanOf(from, to);
    const text = this.text(span);
    return { span, text: spacedOnce(text), key: keyOf(text) };
  }

  /** The title at the cursor, which stands on a closed string. */
  title(): Title {
    const span = this.here();
    this.at += 1;
    return { span, text: this.source.slice(span.start + 1, span.end - 1) };
  }

  /** Notes what keeps the line from being read; always null. */
  stop(fault: NotationFault): null {
    this.fault ??= fault;
    return null;
  }

  fail(problem: SyntaxProblem, span: Span): null {
    return this.stop(this.syntax(problem, span));
  }

  syntax(problem: SyntaxProblem, span: Span): NotationFault {
    return { code: 'syntax', span, problem, found: this.text(span) };
  }

  /** A number that is used as one: `.9` and `5.` are read, and flagged. */
  remarkOn(number: NumberNode): void {
    const safe = safeForm(normalise(number.text));
    if (safe === null) return;
    this.remarks.push({ code: 'naked-decimal', span: number.span, found: number.text, safe });
  }
}

export function cover(first: Span, last: Span): Span {
  return { start: first.start, end: last.end };
}
