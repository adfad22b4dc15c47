/** Which notes a note names after `use`. */
import { readNote } from '../../markdown/index.ts';
import type { Block } from '../../markdown/note-text.ts';
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
  return usesIn(readNote(text).blocks);
}

/** Of a note that is read already; blocks that stay the same while it is edited are not looked at again. */
export function usesIn(blocks: readonly Block[]): Uses {
  const shared = new Set<string>();
  const alone = new Set<string>();
  for (const block of blocks) {
    const paths = block.mode === 'alone' ? alone : shared;
    for (const path of pathsIn(block)) paths.add(path);
  }
  return { shared: [...shared], alone: [...alone] };
}

const NO_PATHS: readonly string[] = [];
const named = new WeakMap<Block, readonly string[]>();

function pathsIn(block: Block): readonly string[] {
  const paths = named.get(block) ?? readPaths(block);
  named.set(block, paths);
  return paths;
}

function readPaths({ mode, text }: Block): readonly string[] {
  if (mode === 'skip' || !WORD.test(text)) return NO_PATHS;
  return parseBlock(text).statements.flatMap((node) => (node.kind === 'use' ? [node.path.text] : []));
}
