import { BLOCK_BEGINS, blockOf, type FoundBlock } from './block.ts';
import { differenceBetween } from './difference.ts';
import { fenceAlone } from './fence-alone.ts';
import { readFlow } from './flow.ts';

/** What the parser said of one stretch of a note, in the stretch's own offsets. */
export interface Chunk {
  readonly blocks: readonly FoundBlock[];
  /** What would swallow the lines that follow, and whether that is the last block. */
  readonly open: { readonly until: RegExp; readonly isBlock: boolean } | null;
}

/** Only raw HTML and fences outlive a blank line, and they begin so at the left margin. */
const MAY_STAY_OPEN = /^ {0,3}(?:<|`{3}|~{3})/m;

/** A chunk about which the parser need not be asked: it can neither hold a block nor swallow what follows. */
export const PLAIN: Chunk = { blocks: [], open: null };

export function isPlain(text: string): boolean {
  return !BLOCK_BEGINS.test(text) && !MAY_STAY_OPEN.test(text);
}

export function readChunk(text: string): Chunk {
  const { fences, open } = fenceAlone(text) ?? readFlow(text);
  const blocks = fences.flatMap((fence) => blockOf(text, fence) ?? []);
  const isBlock = open !== null && open.fence !== null && blocks.at(-1)?.at === open.fence.opening.start;
  return { blocks, open: open && { until: open.until, isBlock } };
}

/**
 * The chunk after an edit inside one line of a block, without asking the parser again. Null when the edit may change
 * what the parser says: when it is elsewhere, reaches the line's first visible character, or has to do with fences.
 */
export function amendedChunk(before: string, chunk: Chunk, after: string): Chunk | null {
  const edit = differenceBetween(before, after);
  const index = chunk.blocks.findLastIndex(({ at }) => at <= edit.start);
  const block = chunk.blocks[index];
  if (block === undefined) return null;
  const from = block.map.lineAt(edit.start - block.at);
  const to = block.map.lineAt(edit.end - block.at);
  if (from === null || from.index !== to?.index || from.text.slice(0, from.column).trim() === '') return null;
  const line = from.text.slice(0, from.column) + edit.text + from.text.slice(to.column);
  if (/[\r\n]|`{3}|~{3}/.test(from.text + line)) return null;

  const longer = after.length - before.length;
  const blocks = chunk.blocks.map((other, position) => {
    if (position < index) return other;
    if (position > index) return { ...other, at: other.at + longer };
    return { ...block, map: block.map.withLine(from.index, line), length: block.length + longer };
  });
  return { blocks, open: chunk.open };
}
