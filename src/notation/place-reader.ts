/** Goes along the tokens of an unfinished line; what breaks off there says what is still to be written. */
import type { Span } from './ast.ts';
import { unitAt } from './figure.ts';
import type { Token } from './lexer.ts';
import { Line } from './line.ts';
import type { Measured, Place } from './place-kinds.ts';
import type { Unfinished } from './unfinished.ts';

export class PlaceReader {
  protected readonly line: Line;
  protected readonly tokens: readonly Token[];
  protected readonly word: Span;
  protected at = 0;

  constructor(
    text: string,
    private readonly unfinished: Unfinished,
  ) {
    this.tokens = unfinished.tokens;
    this.word = unfinished.word;
    this.line = new Line(text, this.tokens, { span: this.word, line: 0 });
  }

  protected get done(): boolean {
    return this.at >= this.tokens.length;
  }

  protected kind(index = this.at): Token['kind'] | null {
    return this.tokens[index]?.kind ?? null;
  }

  /** From a token, or the word being written, to the end of that word. */
  protected from(index: number): Span {
    return { start: this.tokens[index]?.start ?? this.word.start, end: this.word.end };
  }

  protected afterLast(separates: (token: Token) => boolean): number {
    return Math.max(this.tokens.findLastIndex(separates) + 1, 1);
  }

  protected unit(measured: Measured): readonly Place[] {
    return [{ kind: 'unit', phrase: this.word, measured, touching: this.unfinished.touching }];
  }

  protected joint(...words: readonly string[]): Place {
    return { kind: 'joint', phrase: this.word, words };
  }

  /** Goes past a number with its unit and tolerance. The places of what it lacks; null where it is whole. */
  protected number(measured: Measured): readonly Place[] | null {
    if (this.kind() !== 'number' && this.kind() !== 'question') return [];
    const unit = unitAt(this.line, this.at + 1);
    if (!unit) return this.at + 1 === this.tokens.length ? this.unit(measured) : [];
    this.at = unit.next;
    return this.kind() === 'plus-minus' ? this.tolerance(unit.node.unit.symbol) : null;
  }

  /** After `±` or `within`, which stands at the cursor. */
  protected tolerance(beside: string | null): readonly Place[] | null {
    this.at += 1;
    return this.number({ of: 'tolerance', beside });
  }
}
