/** A piece of prose that is read as a line of a block would be. */
import type { Block, SourceSpan } from '../markdown/note-text.ts';

export class BoundBlock implements Block {
  readonly mode = 'shared';
  readonly strayInfo = [];
  readonly closed = true;
  readonly info: SourceSpan;
  readonly start: number;

  constructor(
    readonly text: string,
    readonly span: SourceSpan,
    readonly toSource: Block['toSource'],
  ) {
    this.info = span;
    this.start = span.start;
  }

  /** Character by character from `start` on. */
  static at(text: string, start: number): BoundBlock {
    const inside = (offset: number) => start + Math.min(Math.max(offset, 0), text.length);
    const span = { start, end: start + text.length };
    return new BoundBlock(text, span, (at) => ({ start: inside(at.start), end: inside(at.end) }));
  }

  /** Everything at one place, where the text is not what is written. */
  static pinned(text: string, span: SourceSpan): BoundBlock {
    return new BoundBlock(text, span, () => span);
  }

  /** Prose is read anew in each version of the note. */
  place(span: SourceSpan): SourceSpan {
    return this.toSource(span);
  }

  toText(): null {
    return null;
  }
}
