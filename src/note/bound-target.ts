/** `infusion:NAME/OBSERVABLE`: what a link names, hyphens for spaces. */
import type { Link, SourceSpan } from '../markdown/note-text.ts';
import { BoundBlock } from './bound-block.ts';

export interface BoundTarget {
  /** As in a report: `gastric/free-water`. */
  readonly written: string;
  readonly name: BoundBlock;
  /** null in a cross reference, which names no result. */
  readonly observable: BoundBlock | null;
  /** Each character has a place of its own in the note, so that a part can be put right in its place. */
  readonly isPlaced: boolean;
}

const SCHEME = 'infusion:'.length;

export function boundTarget({ target, targetSpan }: Link): BoundTarget {
  const { text: decoded, places } = decodedText(target);
  const start = targetSpan.start + SCHEME;
  const isPlaced = targetSpan.end - start === target.length;
  const text = decoded.replaceAll('-', ' ');
  // A name may hold a slash of its own (20-mmol/L), a result none.
  const slash = text.lastIndexOf('/');
  const part = (from: number, to: number) => {
    const untrimmed = text.slice(from, to);
    const words = untrimmed.trim();
    if (!isPlaced) return BoundBlock.pinned(words, targetSpan);
    const first = from + untrimmed.length - untrimmed.trimStart().length;
    const at = (offset: number) => start + places[first + Math.min(Math.max(offset, 0), words.length)]!;
    const placed = (span: SourceSpan) => ({ start: at(span.start), end: at(span.end) });
    return new BoundBlock(words, placed({ start: 0, end: words.length }), placed);
  };
  return {
    written: decoded.trim().replace(/\s+/g, '-'),
    name: part(0, slash < 0 ? text.length : slash),
    observable: slash < 0 ? null : part(slash + 1, text.length),
    isPlaced,
  };
}

/** A name as it stands in a target. */
export function writtenTarget(name: string): string {
  return name.replace(/%/g, '%25').replace(/\s+/g, '-');
}

/** One character written with percent signs, a byte each, or any unit by itself. */
const WRITTEN = /%[0-7][\da-f]|%[c-f][\da-f](?:%[89ab][\da-f])+|[\s\S]/gi;

/** `places`: where each unit of the text is written in the target, and last where that ends. */
function decodedText(target: string): { readonly text: string; readonly places: readonly number[] } {
  const isEncoded = isWellEncoded(target);
  let text = '';
  const places: number[] = [];
  for (const { 0: written, index } of target.matchAll(WRITTEN)) {
    const read = isEncoded && written.length > 1 ? decodeURIComponent(written) : written;
    for (let unit = 0; unit < read.length; unit += 1) places.push(isEncoded ? index : index + unit);
    text += read;
  }
  return { text, places: [...places, target.length] };
}

function isWellEncoded(target: string): boolean {
  try {
    return decodeURIComponent(target) !== '';
  } catch {
    return false;
  }
}
