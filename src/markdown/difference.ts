/** The one stretch of a text, and what was put in its place, that make it another. */
export interface Difference {
  readonly start: number;
  /** Where the stretch ends in the text before. */
  readonly end: number;
  readonly text: string;
}

export function differenceBetween(before: string, after: string): Difference {
  const shorter = Math.min(before.length, after.length);
  const start = most(shorter, (from, to) => before.slice(from, to) === after.slice(from, to));
  const longer = after.length - before.length;
  const last = before.length;
  const same = most(shorter - start, (from, to) => {
    return before.slice(last - to, last - from) === after.slice(last - to + longer, last - from + longer);
  });
  return { start, end: last - same, text: after.slice(start, after.length - same) };
}

/** How many characters agree, found by halves: comparing two slices costs far less than going through their characters. */
function most(length: number, agree: (from: number, to: number) => boolean): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high + 1) >>> 1;
    if (agree(low, middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
