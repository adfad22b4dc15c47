/** What follows from a thing that never changes is worked out once, and forgotten with the thing. */

/** By the thing, then by what is asked of it. One table for all: of several the collector of memory takes longer. */
const KNOWN = new WeakMap<object, Map<unknown, unknown>>();

export function remembered<Of extends object, T extends object>(work: (of: Of) => T): (of: Of) => T {
  return (of) => {
    const answers = KNOWN.get(of) ?? new Map<unknown, unknown>();
    const known = answers.get(work) as T | undefined;
    if (known !== undefined) return known;
    const found = work(of);
    answers.set(work, found);
    KNOWN.set(of, answers);
    return found;
  };
}
