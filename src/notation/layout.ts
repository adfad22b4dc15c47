/** Where the lines of a block begin: what belongs to what, and amounts below each other. */
import type { Statement } from './ast.ts';
import type { Piece } from './pieces.ts';

/** Columns for each step inwards. */
const STEP = 2;

/** The indentation of statements, taken in the order of a block. */
export class Indents {
  private open = false;
  /** Whether an acceptance would speak of the line above, not of the entity as a whole. */
  private belowLine = false;

  /** Of a line that follows the last one. */
  get next(): number {
    return this.open ? STEP : 0;
  }

  of(statement: Statement): number {
    const kind = statement.kind === 'unread' ? statement.keyword : statement.kind;
    switch (kind) {
      case 'mixture':
      case 'stock':
      case 'substance':
      case 'patient':
      case 'give':
        this.open = true;
        this.belowLine = false;
        return 0;
      case 'use':
      case 'compare':
        this.open = false;
        this.belowLine = false;
        return 0;
      case 'accept':
        return this.open && this.belowLine ? 2 * STEP : this.next;
      default:
        this.belowLine = true;
        return this.next;
    }
  }
}

/** A remark stands like the line right below it, though not as far in as an acceptance, or else belongs to what is above. */
export function remarkIndent(below: number | null, above: number | null): number {
  return below === null ? (above ?? 0) : Math.min(below, STEP);
}

/** A statement's text in three parts; without an amount to align, all of it is `head`. */
export interface Parts {
  readonly head: string;
  readonly number: string;
  readonly tail: string;
}

/** Splits a statement around the number of the amount that it adds. */
export function splitAtAmount(statement: Statement, pieces: readonly Piece[]): Parts {
  const start = amountStart(statement);
  const at = pieces.findIndex((piece) => piece.start === start);
  if (at < 0) return { head: joined(pieces), number: '', tail: '' };
  const { gap, text } = pieces[at]!;
  return { head: joined(pieces.slice(0, at)) + gap, number: text, tail: joined(pieces.slice(at + 1)) };
}

function amountStart(statement: Statement): number | null {
  if (statement.kind === 'by-volume') return statement.volume.span.start;
  return statement.kind === 'addition' ? (statement.amount?.span.start ?? null) : null;
}

function joined(pieces: readonly Piece[]): string {
  return pieces.map(({ gap, text }) => gap + text).join('');
}

/** Spaces before a line and behind its number. */
export interface Padding {
  readonly lead: number;
  readonly behind: number;
}

/** What brings the decimal points of some amounts below each other, and their units. */
export function paddings(amounts: readonly Parts[]): readonly Padding[] {
  const widths = amounts.map(({ head, number }) => {
    const point = number.indexOf('.');
    const whole = point < 0 ? number.length : point;
    return { before: head.length + whole, behind: number.length - whole };
  });
  const before = widths.reduce((most, width) => Math.max(most, width.before), 0);
  const behind = widths.reduce((most, width) => Math.max(most, width.behind), 0);
  return widths.map((width) => ({ lead: before - width.before, behind: behind - width.behind }));
}
