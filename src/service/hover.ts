/** Which card belongs to a place in the note. */
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type { Span } from '../notation/ast.ts';
import type { Entity, Mention, WorkedNoteModel } from '../note/index.ts';
import { hoverMarkdown, terminalText } from '../render/index.ts';
import type { Tree } from '../text/tree.ts';
import { numberCard, tableCard } from './cards/bound-cards.ts';
import { askedCard, whatIfCard } from './cards/lesson-cards.ts';
import { claimCard, comparisonCard, stepCard } from './cards/line-cards.ts';
import { Facts } from './facts.ts';
import type { Lines } from './lines.ts';
import { nameAt } from './navigation/names.ts';
import type { HoverCard } from './types.ts';

/** Columns of a card that is shown as plain text. */
const CARD_WIDTH = 72;

/** The card at an offset of the note, or null where there is nothing to say. */
export function hoverAt(model: WorkedNoteModel, lines: Lines, offset: number): HoverCard | null {
  const block = model.blocks.find(({ span }) => offset >= span.start && offset <= span.end);
  const at = block?.toText(offset);
  if (!block) return boundCardAt(model, lines, offset);
  if (at === null || at === undefined) return null;
  return new Hover(model, lines, block, at, offset).card();
}

/** Each form is made when it is asked for. */
function cardOf({ start, end }: SourceSpan, tree: readonly Tree[]): HoverCard {
  return {
    span: { start, end },
    get markdown() {
      return hoverMarkdown(tree);
    },
    plain: {
      get markdown() {
        return hoverMarkdown(tree, { pictures: false });
      },
      get text() {
        return terminalText(tree, { colour: false, width: CARD_WIDTH });
      },
    },
  };
}

/** On a link or a mark in prose: a number's own card, the card of what a link names, that of the table. */
function boundCardAt(model: WorkedNoteModel, lines: Lines, offset: number): HoverCard | null {
  const { numbers, tables, links, mentions, policy } = model;
  const here = ({ start, end }: SourceSpan) => offset >= start && offset <= end;
  const number = numbers.find(({ link }) => here(link));
  if (number) return cardOf(number.link, numberCard(number, policy));
  const link = links.find(({ at }) => here(at));
  if (link) {
    const { at, name } = link;
    const facts = new Facts(model, lines);
    const named = mentions.find((mention) => mention.at.start >= name.start && mention.at.end <= name.end);
    const { of } = nameAt(model, name.start) ?? {};
    const card = named ? facts.of(named.of) : of?.kind === 'entity' ? facts.entity(of.entity) : [];
    return card.length > 0 ? cardOf(at, card) : null;
  }
  const table = tables.find(({ at, closing }) => here(at) || here(closing));
  if (!table) return null;
  const span = here(table.at) ? table.at : table.closing;
  return cardOf(span, tableCard(table, policy.reference));
}

class Hover {
  private readonly facts: Facts;

  constructor(
    private readonly model: WorkedNoteModel,
    lines: Lines,
    private readonly block: Block,
    private readonly at: number,
    private readonly offset: number,
  ) {
    this.facts = new Facts(model, lines);
  }

  card(): HoverCard | null {
    return this.header() ?? this.line() ?? this.mentioned();
  }

  /** On a mixture's or a patient's name or title. */
  private header(): HoverCard | null {
    const here = ({ entity }: { readonly entity: Entity }) =>
      entity.block === this.block && inside(entity.header, this.at);
    const mixture = this.model.mixtures.find(here);
    if (mixture) return this.show(mixture.entity.header, this.facts.mixture(mixture));
    const patient = this.model.patients.find(here);
    const card = patient ? this.facts.entity(patient.entity) : [];
    return patient && card.length > 0 ? this.show(patient.entity.header, card) : null;
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
        return this.show(step.node.span, [
          ...stepCard(step, written, solved, this.model.policy.terms),
          ...this.told(mention),
        ]);
      }
    }
    const order = this.model.orders.find(({ entity }) => entity.block === this.block && inside(entity.header, this.at));
    if (order) return this.show(order.entity.header, this.facts.order(order));
    const claim = this.model.claims.find(({ node, block }) => block === this.block && inside(node.span, this.at));
    if (claim) return this.show(claim.node.span, claimCard(claim));
    const asks = this.model.shows.find(
      ({ span, block, question }) => question !== null && block === this.block && inside(span, this.at),
    );
    if (asks) return this.show(asks.span, askedCard(asks, this.model.policy.reference));
    const whatIf = this.model.whatIfs.find(({ node, block }) => block === this.block && inside(node.span, this.at));
    if (whatIf && !mention) return this.show(whatIf.node.span, whatIfCard(whatIf, this.model.policy.reference));
    const comparison = this.model.comparisons.find(
      ({ node, block }) => block === this.block && inside(node.span, this.at),
    );
    if (comparison && !mention)
      return this.show(comparison.node.span, comparisonCard(comparison, this.model.policy.reference));
    return null;
  }

  /** On a word that means something wherever it stands, such as a solute on a line that is withheld. */
  private mentioned(): HoverCard | null {
    const mention = this.mention();
    if (!mention) return null;
    const facts = this.told(mention, true);
    return facts.length > 0 ? cardOf(mention.at, facts) : null;
  }

  private mention(): Mention | null {
    return this.model.mentions.find(({ at }) => this.offset >= at.start && this.offset <= at.end) ?? null;
  }

  /** `alone`: nothing else stands on the card. */
  private told(mention: Mention | null, alone = false): readonly Tree[] {
    const facts = mention ? this.facts.of(mention.of) : [];
    return alone || facts.length === 0 ? facts : [{ kind: 'rule' }, ...facts];
  }

  private show(span: Span, tree: readonly Tree[]): HoverCard {
    return cardOf(this.block.toSource(span), tree);
  }
}

function inside(span: Span, at: number): boolean {
  return at >= span.start && at <= span.end;
}
