/** The most frequent stretch of all, a fence at the left margin and nothing else, read without the parser. */
import { endOfFence, type Fence, type Flow } from './flow.ts';
import { isBlank, linesOf } from './lines.ts';

/** CommonMark 0.31.2, section 4.5: the words behind backticks hold none. */
const OPENS = /^(?:(`{3,})[^`\r\n]*|(~{3,})[^\r\n]*)(?=[\r\n]|$)/;

/**
 * What the parser says of a text that begins with a fence and ends with it, or with blank lines behind it; null where it
 * has to be asked. At the left margin of a stretch no list, quotation or raw HTML can be open, and a fence takes each line
 * as it is until one closes it.
 */
export function fenceAlone(markdown: string): Flow | null {
  const opening = OPENS.exec(markdown);
  if (!opening) return null;
  const marks = opening[1] ?? opening[2]!;
  const closes = new RegExp(`^ {0,3}(${marks[0]}{${marks.length},})[ \\t]*$`);
  const lines: Fence['lines'][number][] = [];
  let closing: Fence['closing'] = null;
  for (const { start, end } of linesOf(markdown)) {
    if (start === 0 || start === end) continue;
    const line = markdown.slice(start, end);
    if (closing) {
      if (isBlank(line)) continue;
      return null;
    }
    const run = closes.exec(line)?.[1];
    if (run === undefined) lines.push({ start, end, padding: 0 });
    else {
      const from = start + line.indexOf(run);
      closing = { start: from, end: from + run.length };
    }
  }
  const fence = { opening: { start: 0, end: marks.length }, closing, lines };
  return { fences: [fence], open: closing ? null : { fence, until: endOfFence(marks) } };
}
