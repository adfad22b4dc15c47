/** How far apart two spellings are. */
import { distance } from 'fastest-levenshtein';

/** The edit distance of two texts when it is at most `allowed`, else null. Texts too unequal in length are not compared. */
export function distanceWithin(a: string, b: string, allowed: number): number | null {
  if (Math.abs(a.length - b.length) > allowed) return null;
  const found = distance(a, b);
  return found <= allowed ? found : null;
}
