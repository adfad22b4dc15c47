/** Works out a whole note: its blocks, scopes, mixtures and the questions asked of them. */
import { DEFAULT_REFERENCE, type Reference } from '../engine/index.ts';
import type { Block, NoteText } from '../markdown/note-text.ts';
import { type BlockSyntax, parseBlock } from '../notation/index.ts';
import { Choices } from './choices.ts';
import { Asker } from './claims.ts';
import { workMixture } from './mixture.ts';
import type {
  Entity,
  LooseLine,
  Scope,
  WorkedClaim,
  WorkedComparison,
  WorkedMixture,
  WorkedNoteModel,
  WorkedShow,
} from './model.ts';
import { workingOrder } from './order.ts';
import { type OwnSubstances, ownSubstances } from './own-substances.ts';
import { type Desk, Reporter } from './reporter.ts';
import { gather, type ReadBlock } from './scope.ts';
import { workStock } from './stock.ts';

/** Reads a block's text; a caller may pass one that remembers earlier texts. */
export type BlockReader = (text: string) => BlockSyntax;

/** Total: any note gives a model, with its faults in the order of the note. */
export function workNote(
  note: NoteText,
  read: BlockReader = parseBlock,
  reference: Reference = DEFAULT_REFERENCE,
): WorkedNoteModel {
  const worker = new NoteWorker(reference);
  const shared: ReadBlock[] = [];
  for (const block of note.blocks) {
    const entry = worker.readBlock(block, read);
    if (!entry) continue;
    if (block.mode === 'alone') worker.scope([entry]);
    else shared.push(entry);
  }
  worker.scope(shared);
  return worker.model(note);
}

class NoteWorker {
  private readonly desk: Desk = { faults: [], mentions: [] };
  private readonly mixtures: WorkedMixture[] = [];
  private readonly claims: WorkedClaim[] = [];
  private readonly shows: WorkedShow[] = [];
  private readonly comparisons: WorkedComparison[] = [];

  constructor(private readonly reference: Reference) {}

  /** null for a `skip` block, of which only the fence is looked at. */
  readBlock(block: Block, read: BlockReader): ReadBlock | null {
    if (!block.closed) this.desk.faults.push({ at: block.info, fault: { code: 'unclosed-fence' } });
    for (const { text, span } of block.strayInfo) {
      this.desk.faults.push({ at: span, fault: { code: 'stray-info', found: text } });
    }
    if (block.mode === 'skip') return null;
    const syntax = read(block.text);
    for (const fault of syntax.faults) this.desk.faults.push({ at: block.toSource(fault.span), fault });
    return { block, syntax };
  }

  scope(blocks: readonly ReadBlock[]): void {
    const scope = gather(blocks, this.desk.faults);
    const own = ownSubstances(scope, this.desk);
    const worked = this.workMixtures(scope, own);
    for (const mixture of worked.values()) {
      this.mixtures.push(mixture);
      const { block } = mixture.entity;
      for (const node of mixture.claims) this.ask({ node, block, open: mixture.entity }, scope, worked, own);
    }
    for (const line of scope.loose) this.ask(line, scope, worked, own);
  }

  model(note: NoteText): WorkedNoteModel {
    const { claims, shows, comparisons } = this;
    const byPlace = (a: WorkedMixture, b: WorkedMixture) => placeOf(a.entity) - placeOf(b.entity);
    return {
      source: note.source,
      blocks: note.blocks,
      mixtures: this.mixtures.sort(byPlace),
      claims,
      shows,
      comparisons,
      mentions: this.desk.mentions,
      faults: this.desk.faults.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end),
    };
  }

  private workMixtures(scope: Scope, own: OwnSubstances): ReadonlyMap<Entity, WorkedMixture> {
    const { ready, circles } = workingOrder(scope);
    const worked = new Map<Entity, WorkedMixture>();
    for (const entity of scope.entities) {
      if (entity.kind === 'stock')
        worked.set(entity, workStock(entity, { scope, worked, own, reference: this.reference }, this.desk));
    }
    for (const circle of circles) this.circle(circle);
    for (const entity of ready)
      worked.set(entity, workMixture(entity, { scope, worked, own, reference: this.reference }, this.desk));
    // What is in a circle, or made from it, is bound all the same: its other lines may have faults of their own.
    for (const entity of scope.entities) {
      if (entity.kind !== 'mixture' || worked.has(entity)) continue;
      const cause = entity.block.toSource(entity.name?.span ?? entity.header);
      worked.set(
        entity,
        workMixture(
          { ...entity, spoiledBy: entity.spoiledBy ?? cause },
          { scope, worked, own, reference: this.reference },
          this.desk,
        ),
      );
    }
    return worked;
  }

  private circle(entities: readonly Entity[]): void {
    const first = entities[0]!;
    const names = entities.map(({ name }) => name?.text ?? '');
    new Reporter(first.block, this.desk).at(first.name?.span ?? first.header, { code: 'circular-mixture', names });
  }

  private ask(
    { node, block, open }: LooseLine,
    scope: Scope,
    worked: ReadonlyMap<Entity, WorkedMixture>,
    own: OwnSubstances,
  ): void {
    const asker = new Asker(
      block,
      { scope, worked, own, reference: this.reference, choices: new Choices() },
      this.desk,
    );
    if (node.kind === 'claim' || node.kind === 'target') push(this.claims, asker.claim(node, open));
    else if (node.kind === 'show') push(this.shows, asker.show(node, open));
    else if (node.kind === 'compare') push(this.comparisons, asker.compare(node));
  }
}

function push<T>(list: T[], item: T | null): void {
  if (item) list.push(item);
}

function placeOf(entity: Entity): number {
  return entity.block.toSource(entity.header).start;
}
