/** Whether there can be a block, a bound number or a table in it: the cheap question before anything is parsed. */
export function mayHoldBlocks(source: string): boolean {
  return /infusion/i.test(source);
}
