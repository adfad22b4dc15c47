/** A document to print and fill in, without saying in which medium. */
import type { Tree } from './tree.ts';

/** Text and tables alone. In a table an empty cell is a blank to fill in, and ☐ a box to tick. */
export type SheetBlock = Extract<Tree, { kind: 'paragraph' | 'list' | 'table' }>;

export interface Sheet {
  readonly title: string;
  /** Below the title. */
  readonly lead: readonly SheetBlock[];
  readonly sections: readonly { readonly heading: string; readonly blocks: readonly SheetBlock[] }[];
}

export function isSheetBlock(tree: Tree): tree is SheetBlock {
  return tree.kind === 'paragraph' || tree.kind === 'list' || tree.kind === 'table';
}
