/** `FUZZ=50 npx vitest run tests/fuzz` makes fifty times as many runs; a mutant is tried with a few. */
const times = Number(process.env.FUZZ ?? 1);

/** fast-check's parameters for so many runs of the ordinary suite. `FUZZ_SEED` repeats a run. */
export function runs(count: number): { readonly numRuns: number; readonly seed?: number } {
  const seed = process.env.FUZZ_SEED;
  return { numRuns: Math.ceil(count * times), ...(seed === undefined ? {} : { seed: Number(seed) }) };
}
