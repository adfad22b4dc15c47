/** What is shown of the line where a finding begins. */
import type { Lines } from './lines.ts';
import type { Range } from './report-model.ts';

/** At most `WIDTH` characters of the line, round the place. */
export interface Excerpt {
  readonly text: string;
  /** Where the place begins and ends in `text`; to its end for a place of several lines. */
  readonly from: number;
  readonly to: number;
  /** Whether something of the line stands before `text`. */
  readonly cut: boolean;
}

const WIDTH = 100;
/** What is shown before the place of a long line. */
const BEFORE = 20;

export function excerptOf({ start, end }: Range, lines: Lines): Excerpt {
  const line = lines.text(start.line);
  const from = start.character;
  const to = Math.max(end.line === start.line ? end.character : line.length, from + 1);
  const left = Math.max(0, Math.min(from - BEFORE, to - WIDTH));
  const text = line.slice(left, left + WIDTH);
  return { text, from: from - left, to: Math.min(to - left, Math.max(text.length, from - left + 1)), cut: left > 0 };
}
