/** A figure, its sign and its whole digits first; what follows begins at the decimal point or the unit. */
const NUMBER = /^[+\-−]?\d+(?=\.\d|\s|$)/u;

/** How many places each cell of a number column moves right so that the decimal points stand below one another. */
export function decimalPadding(cells: readonly string[]): number[] {
  const leads = cells.map((cell) => NUMBER.exec(cell)?.[0].length ?? null);
  const longest = Math.max(0, ...leads.map((lead) => lead ?? 0));
  return leads.map((lead) => (lead === null ? 0 : longest - lead));
}
