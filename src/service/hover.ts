/** Which card belongs to a place in the note. */
import { findingOf, messageOf } from '../checks/index.ts';
import type { Reference } from '../engine/index.ts';
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type { Span } from '../notation/ast.ts';
import type { Mention, WorkedMixture, WorkedNoteModel } from '../note/index.ts';
import { hoverMarkdown } from '../render/index.ts';
import type { Tree } from '../text/tree.ts';
import { claimCard, comparisonCard, ionFacts, stepCard, substanceFacts } from './cards/line-cards.ts';
import { fluidCard, mixtureCard, withheldCard } from './cards/mixture-card.ts';
import type { Lines } from './lines.ts';
import type { HoverCard } from './types.ts';

/** The card at an offset of the note, or null where there is nothing to say. */
export function hoverAt(model: WorkedNoteModel, lines: Lines, reference: Reference, offset: number): HoverCard | null {
  const block = model.blocks.find(({ span }) => offset >= span.start && offset <= span.end);
  const at = block?.toText(offset);
  if (!block || at === null || at === undefined) return null;
  return new Hover(model, lines, reference, block, at, offset).card();
}

class Hover {
  constructor(
    private readonly model: WorkedNoteModel,
    private readonly lines: Lines,
    private readonly reference: Reference,
    private readonly block: Block,
    private readonly at: number,
    private readonly offset: number,
  ) {}

  card(): HoverCard | null {
    return this.header() ?? this.line() ?? this.mentioned();
  }

  /** On a mixture's name or title. */
  private header(): HoverCard | null {
    for (const mixture of this.model.mixtures) {
      const { block, header } = mixture.entity;
      if (block === this.block && inside(header, this.at)) return this.show(header, this.mixture(mixture));
    }
    return null;
  }

  /** On a step, claim or comparison: the line's own card, with the facts of the word that is pointed at. */
  private line(): HoverCard | null {
    const mention = this.mention();
    for (const mixture of this.model.mixtures) {
      if (mixture.entity.block !== this.block) continue;
      const step = mixture.steps.find(({ node }) => inside(node.span, this.at));
      if (step) {
        const written = this.block.text.slice(step.node.span.start, step.node.span.end);
        const solved = mixture.solved.filter(({ line }) => line === step.node.line);
        return this.show(step.node.span, [...stepCard(step, written, solved), ...this.facts(mention)]);
      }
    }
    const claim = this.model.claims.find(({ node, block }) => block === this.block && inside(node.span, this.at));
    if (claim) return this.show(claim.node.span, claimCard(claim));
    const comparison = this.model.comparisons.find(
      ({ node, block }) => block === this.block && inside(node.span, this.at),
    );
    if (comparison && !mention) return this.show(comparison.node.span, comparisonCard(comparison, this.reference));
    return null;
  }

  /** On a word that means something wherever it stands, such as a solute on a line that is withheld. */
  private mentioned(): HoverCard | null {
    const mention = this.mention();
    if (!mention) return null;
    const facts = this.facts(mention, true);
    return facts.length > 0 ? { span: mention.at, markdown: hoverMarkdown(facts) } : null;
  }

  private mention(): Mention | null {
    return this.model.mentions.find(({ at }) => this.offset >= at.start && this.offset <= at.end) ?? null;
  }

  /** `alone`: nothing else stands on the card, so that a whole liquid has room. */
  private facts(mention: Mention | null, alone = false): readonly Tree[] {
    if (!mention) return [];
    const { of } = mention;
    const rule: readonly Tree[] = alone ? [] : [{ kind: 'rule' }];
    switch (of.kind) {
      case 'substance':
        return [...rule, ...substanceFacts(of.substance, of.written)];
      case 'ion':
        return [...rule, ...ionFacts(of.ion)];
      case 'fluid':
        return [...rule, ...fluidCard(of.name, of.perMl, this.reference)];
      case 'mixture': {
        const mixture = this.model.mixtures.find(({ entity }) => entity === of.entity);
        return mixture ? [...rule, ...this.mixture(mixture)] : [];
      }
    }
  }

  private mixture(mixture: WorkedMixture): readonly Tree[] {
    if (mixture.contents) return mixtureCard(mixture, mixture.contents, this.reference);
    const cause = mixture.cause ?? { start: 0, end: 0 };
    return withheldCard(mixture, this.lines.at(cause.start).line + 1, this.messageAt(cause));
  }

  private messageAt(place: SourceSpan): string | null {
    const located = this.model.faults.find(({ at }) => at.start >= place.start && at.end <= place.end);
    return located ? messageOf(findingOf(located).wording) : null;
  }

  private show(span: Span, tree: readonly Tree[]): HoverCard {
    return { span: this.block.toSource(span), markdown: hoverMarkdown(tree) };
  }
}

function inside(span: Span, at: number): boolean {
  return at >= span.start && at <= span.end;
}
