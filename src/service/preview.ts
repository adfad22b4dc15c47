/** What each block of a note is shown as to a reader: cards, with their figures and the findings where they belong. */
import { findingsOf } from '../checks/findings.ts';
import { readNote } from '../markdown/index.ts';
import type { Block } from '../markdown/note-text.ts';
import { parseBlock } from '../notation/index.ts';
import {
  DEFAULT_POLICY,
  NO_NOTES,
  type Policy,
  type UsedNotes,
  type WorkedNoteModel,
  workNote,
} from '../note/index.ts';
import type { Figure } from '../text/figures.ts';
import type { Tree } from '../text/tree.ts';
import { CAUTION } from './cards/caution.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { Lines } from './lines.ts';
import { blockCards, partsByBlock } from './preview/block-cards.ts';
import type { Remark } from './preview/remarks.ts';

export interface PreviewBlock {
  /** Zero-based line of the note in which its fence opens. */
  readonly line: number;
  /** As written, between the fence's marks. */
  readonly text: string;
  readonly closed: boolean;
  readonly cards: readonly (readonly Tree[])[];
}

/** The blocks of a note in its order, those that are left alone (`skip`) without. Total: any text has a preview. */
export function previewOf(
  source: string,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
): readonly PreviewBlock[] {
  const model = workNote(readNote(source), parseBlock, policy, used);
  const lines = new Lines(source);
  const remarksIn = inOrder(remarksOf(model));
  const parts = partsByBlock(model);
  const blocks = model.blocks
    .filter(({ mode }) => mode !== 'skip')
    .map((block) => ({
      line: lines.at(block.span.start).line,
      text: block.text,
      closed: block.closed,
      cards: blockCards(block, parts.get(block)!, model, lines, remarksIn(block)),
    }));
  return withCaution(blocks);
}

/** The figures of a note, each with a name for a file: `01-gastric-replacement-vessels`. */
export function figuresOf(
  source: string,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
): readonly { readonly name: string; readonly figure: Figure }[] {
  const cards = previewOf(source, policy, used).flatMap((block) => block.cards);
  const found = cards.flatMap((card) => {
    const heading = card.find(({ kind }) => kind === 'heading');
    const title = heading?.kind === 'heading' ? heading.text : '';
    return figuresIn(card).map((figure) => ({ title, figure }));
  });
  return found.map(({ title, figure }, index) => {
    const number = String(index + 1).padStart(Math.max(String(found.length).length, 2), '0');
    return { name: [number, fileWords(title), figure.kind].filter(Boolean).join('-'), figure };
  });
}

/** What is folded away included. */
function figuresIn(trees: readonly Tree[]): readonly Figure[] {
  return trees.flatMap((tree) => {
    if (tree.kind === 'folded') return figuresIn(tree.body);
    return tree.kind === 'figure' ? [tree.figure] : [];
  });
}

/** Lower-case letters and digits with hyphens between them, as every file system takes them. */
function fileWords(title: string): string {
  return title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
    .replace(/^-|-$/g, '');
}

function remarksOf(model: WorkedNoteModel): readonly Remark[] {
  const findings = findingsOf(model);
  const accepted = findings.accepted.map(({ finding, reason }) => ({
    at: finding.at,
    shown: { kind: 'accepted' as const, read: finding.wording.read, reason },
  }));
  const open = diagnosticsOf(model, findings).map((finding) => ({
    at: finding.span,
    shown: { kind: 'finding' as const, finding },
  }));
  return [...accepted, ...open].sort((a, b) => a.at.start - b.at.start);
}

/** Gives each block its remarks; asked for one block after the other, in the order of the note. */
function inOrder(remarks: readonly Remark[]): (block: Block) => readonly Remark[] {
  let next = 0;
  return ({ span }) => {
    while (next < remarks.length && remarks[next]!.at.start < span.start) next += 1;
    const first = next;
    while (next < remarks.length && remarks[next]!.at.start <= span.end) next += 1;
    return remarks.slice(first, next);
  };
}

/** The caution is said once, at the end of the last block that shows anything. */
function withCaution(blocks: readonly PreviewBlock[]): readonly PreviewBlock[] {
  const last = blocks.findLastIndex(({ cards }) => cards.length > 0);
  return blocks.map((block, index) => (index === last ? { ...block, cards: [...block.cards, [CAUTION]] } : block));
}
