/** Which notes a note names after `use`. */
import { readNote } from '../../markdown/index.ts';
import { parseBlock } from '../../notation/index.ts';

/** A note as it was found; `at` tells it from others. The same object stands for the same text. */
export interface FoundNote {
  readonly at: string;
  readonly text: string;
}

/** Paths as they are written, each once. */
export interface Uses {
  /** In blocks that share their names. */
  readonly shared: readonly string[];
  /** In `alone` blocks. */
  readonly alone: readonly string[];
}

const NO_USES: Uses = { shared: [], alone: [] };
const WORD = /\buse\b/i;
const known = new WeakMap<FoundNote, Uses>();

/** The cheap question before a note is read for its paths. */
export function mayUse(text: string): boolean {
  return WORD.test(text);
}

export function usesOf(note: FoundNote): Uses {
  if (!mayUse(note.text)) return NO_USES;
  const uses = known.get(note) ?? readUses(note.text);
  known.set(note, uses);
  return uses;
}

function readUses(text: string): Uses {
  const shared = new Set<string>();
  const alone = new Set<string>();
  for (const block of readNote(text).blocks) {
    if (block.mode === 'skip' || !WORD.test(block.text)) continue;
    const paths = block.mode === 'alone' ? alone : shared;
    for (const node of parseBlock(block.text).statements) if (node.kind === 'use') paths.add(node.path.text);
  }
  return { shared: [...shared], alone: [...alone] };
}
