/**
 * A markdown-it plugin: infusion blocks as cards and figures, static HTML. Every other fence goes to the renderer that was
 * there before. The note is worked out once for each text and what it is worked out under, when its first block is drawn.
 */
import type MarkdownIt from 'markdown-it';
import type { Token } from 'markdown-it';
import { DEFAULT_POLICY, NO_NOTES, type Policy, type UsedNotes } from '../note/index.ts';
import { type PreviewBlock, previewOf } from '../service/index.ts';
import { blockHtml } from './block-html.ts';
import { showNumbersAsText } from './numbers.ts';

/** Local policy, and what other notes give. */
export interface Under {
  readonly policy: Policy;
  readonly used: UsedNotes;
}

export const BY_DEFAULT: Under = { policy: DEFAULT_POLICY, used: NO_NOTES };

export interface PreviewOptions {
  /** What the note that is drawn is worked out under, by what the caller gave the renderer as its environment. */
  readonly workedUnder?: (env: unknown, source: string) => Under;
}

/** Where an infusion fence stands in the document that was parsed. */
interface FencePlace {
  readonly source: string;
  /** Zero-based line. */
  readonly line: number;
  /** Of the heading above it; 0 where there is none. */
  readonly headingAbove: number;
  /** Among the infusion fences of the document. */
  readonly index: number;
}

type FenceRule = NonNullable<MarkdownIt['renderer']['rules']['fence']>;

const INFUSION = /^\s*infusion(?!\S)/i;

export function meniscusPreview(md: MarkdownIt, { workedUnder = () => BY_DEFAULT }: PreviewOptions = {}): void {
  const places = new WeakMap<Token, FencePlace>();
  const worked = new LastWorked();
  md.core.ruler.push('meniscus', ({ tokens, src }) => {
    for (const [token, place] of fencesOf(tokens, src)) places.set(token, place);
    showNumbersAsText(tokens);
  });
  const before: FenceRule =
    md.renderer.rules.fence ?? ((tokens, index, options, _env, self) => self.renderToken(tokens, index, options));
  md.renderer.rules.fence = (tokens, index, options, env, self) => {
    const token = tokens[index]!;
    const plain = () => before(tokens, index, options, env, self);
    const place = places.get(token);
    if (!place) return plain();
    // Where the note's reader finds no block at this line the two disagree about the fence: it stays code.
    const block = worked.blocks(place.source, workedUnder(env, place.source)).get(place.line);
    if (!block || block.cards.length === 0) return plain();
    const shown = blockHtml(block, Math.min(place.headingAbove + 1, 6), place.index);
    // What an unclosed fence swallows is shown as the code it is.
    return `<div${self.renderAttrs(token)}>${shown}</div>\n${block.closed ? '' : plain()}`;
  };
}

function* fencesOf(tokens: readonly Token[], source: string): Generator<readonly [Token, FencePlace]> {
  let headingAbove = 0;
  let index = 0;
  for (const token of tokens) {
    if (token.type === 'heading_open') headingAbove = Number(token.tag.slice(1)) || 0;
    if (token.type !== 'fence' || !token.map || !INFUSION.test(token.info)) continue;
    yield [token, { source, line: token.map[0], headingAbove, index }];
    index += 1;
  }
}

/** The blocks of the last note by their lines: a document is drawn fence by fence, and often again. */
class LastWorked {
  private source: string | null = null;
  private under: Under | null = null;
  private byLine: ReadonlyMap<number, PreviewBlock> = new Map();

  blocks(source: string, under: Under): ReadonlyMap<number, PreviewBlock> {
    if (this.source !== source || this.under?.policy !== under.policy || this.under.used !== under.used) {
      this.byLine = new Map(previewOf(source, under.policy, under.used).map((block) => [block.line, block]));
      [this.source, this.under] = [source, under];
    }
    return this.byLine;
  }
}
