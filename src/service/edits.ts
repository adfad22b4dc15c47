/** Edits of a text. */
import type { Edit } from './types.ts';

/** The text after all of the edits, which are in order and apart from each other. */
export function applied(source: string, edits: readonly Edit[]): string {
  let result = '';
  let at = 0;
  for (const { span, text } of edits) {
    result += source.slice(at, span.start) + text;
    at = span.end;
  }
  return result + source.slice(at);
}
