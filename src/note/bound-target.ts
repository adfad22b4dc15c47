/** `infusion:NAME/OBSERVABLE`: what a link names, hyphens for spaces. */
import type { Link } from '../markdown/note-text.ts';
import { BoundBlock } from './bound-block.ts';

export interface BoundTarget {
  /** As in a report: `gastric/free-water`. */
  readonly written: string;
  readonly name: BoundBlock;
  /** null in a cross reference, which names no result. */
  readonly observable: BoundBlock | null;
  /** Character by character, so that a part can be put right in its place. */
  readonly isAsWritten: boolean;
}

const SCHEME = 'infusion:'.length;

export function boundTarget({ target, targetSpan }: Link): BoundTarget {
  const decoded = decodedText(target);
  const start = targetSpan.start + SCHEME;
  const isAsWritten = decoded === target && targetSpan.end - start === target.length;
  const text = decoded.replaceAll('-', ' ');
  // A name may hold a slash of its own (20-mmol/L), a result none.
  const slash = text.lastIndexOf('/');
  const part = (from: number, to: number) => {
    const words = text.slice(from, to);
    const lead = words.length - words.trimStart().length;
    return isAsWritten ? BoundBlock.at(words.trim(), start + from + lead) : BoundBlock.pinned(words.trim(), targetSpan);
  };
  return {
    written: decoded.trim().replace(/\s+/g, '-'),
    name: part(0, slash < 0 ? text.length : slash),
    observable: slash < 0 ? null : part(slash + 1, text.length),
    isAsWritten,
  };
}

/** A name as it stands in a target. */
export function writtenTarget(name: string): string {
  return name.replace(/%/g, '%25').replace(/\s+/g, '-');
}

function decodedText(target: string): string {
  try {
    return decodeURIComponent(target);
  } catch {
    return target;
  }
}
