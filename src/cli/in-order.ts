/** Works on several things at a time, and gives what comes of them in their order. */

/** `work` must not reject. At most `ahead` things are in work or done and not yet taken. */
export async function* inOrder<T, R>(
  things: Iterable<T>,
  ahead: number,
  work: (thing: T) => Promise<R>,
): AsyncGenerator<R> {
  const begun: Promise<R>[] = [];
  for (const thing of things) {
    if (begun.length >= ahead) yield await begun.shift()!;
    begun.push(work(thing));
  }
  for (const outcome of begun) yield await outcome;
}
