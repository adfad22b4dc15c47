/** Works out a whole note: its blocks, scopes, mixtures and the questions asked of them. */
import type { Block, NoteText } from '../markdown/note-text.ts';
import type { WhatIfNode } from '../notation/ast.ts';
import { type BlockSyntax, LIMITS, parseBlock } from '../notation/index.ts';
import { type BoundProse, ProseBinder } from './bound-prose.ts';
import { Choices } from './choices.ts';
import { Asker } from './claims.ts';
import type {
  Acceptance,
  Entity,
  LooseLine,
  ReadScope,
  WorkedClaim,
  WorkedComparison,
  WorkedMixture,
  WorkedNoteModel,
  WorkedShow,
} from './model.ts';
import { nameUses } from './name-uses.ts';
import type { WorkedOrder, WorkedPatient } from './order-model.ts';
import { orderWording } from './order-wording.ts';
import { Bedside } from './orders/bedside.ts';
import { DEFAULT_POLICY, type Policy } from './policy.ts';
import { proseWording } from './prose-wording.ts';
import { type Desk, Reporter } from './reporter.ts';
import type { ReadBlock } from './scope.ts';
import { type ScopeFluids, workFluids } from './scope-fluids.ts';
import { NO_NOTES, type UsedNotes } from './use/given.ts';
import { MOST_WHAT_IFS, type WhatIf, workWhatIf } from './what-if/what-if.ts';

/** Reads a block's text; a caller may pass one that remembers earlier texts. */
export type BlockReader = (text: string) => BlockSyntax;

/** Total: any note gives a model, with its faults in the order of the note. `used`: what other notes give it. */
export function workNote(
  note: NoteText,
  read: BlockReader = parseBlock,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
): WorkedNoteModel {
  const worker = new NoteWorker(policy, used);
  const shared: ReadBlock[] = [];
  for (const block of note.blocks) {
    const entry = worker.readBlock(block, read);
    if (!entry) continue;
    if (block.mode === 'alone') worker.scope([entry]);
    else shared.push(entry);
  }
  worker.scope(shared, note);
  if (policy.prose) worker.prose(note);
  return worker.model(note);
}

class NoteWorker {
  private readonly desk: Desk = { faults: [], mentions: [] };
  private readonly scopes: ReadScope[] = [];
  private readonly mixtures: WorkedMixture[] = [];
  private readonly patients: WorkedPatient[] = [];
  private readonly orders: WorkedOrder[] = [];
  private readonly unreadOrders: Entity[] = [];
  private readonly acceptances: Acceptance[] = [];
  private readonly claims: WorkedClaim[] = [];
  private readonly shows: WorkedShow[] = [];
  private readonly comparisons: WorkedComparison[] = [];
  /** Of the blocks so far. */
  private lines = 0;
  private readonly whatIfs: WhatIf[] = [];
  private whatIfLines = 0;
  private readonly bound: BoundProse = { numbers: [], tables: [], leftAlone: [] };

  constructor(
    private readonly policy: Policy,
    private readonly used: UsedNotes,
  ) {}

  /** null for a `skip` block, of which only the fence is looked at, and beyond the lines that are read of a note. */
  readBlock(block: Block, read: BlockReader): ReadBlock | null {
    if (!block.closed) this.desk.faults.push({ at: block.info, fault: { code: 'unclosed-fence' } });
    for (const { text, span } of block.strayInfo) {
      this.desk.faults.push({ at: span, fault: { code: 'stray-info', found: text } });
    }
    if (block.mode === 'skip' || this.isBeyond(block)) return null;
    const syntax = read(block.text);
    for (const fault of syntax.faults) this.desk.faults.push({ at: block.toSource(fault.span), fault });
    this.desk.faults.push(...orderWording({ block, syntax }));
    return { block, syntax };
  }

  /** Said once, at the first block that is not read. */
  private isBeyond({ text, info }: Block): boolean {
    const before = this.lines;
    this.lines += lineCount(text);
    const beyond = this.lines > LIMITS.linesInNote;
    if (beyond && before <= LIMITS.linesInNote) {
      const span = { start: 0, end: 0 };
      const fault = { code: 'over-limit', span, what: 'lines-in-note', limit: LIMITS.linesInNote } as const;
      this.desk.faults.push({ at: info, fault });
    }
    return beyond;
  }

  prose(note: NoteText): void {
    this.desk.faults.push(...proseWording(note));
  }

  /** `note`: the prose that is bound to the scope. */
  scope(blocks: readonly ReadBlock[], note: NoteText | null = null): void {
    const around = workFluids(blocks, this.policy, this.used, this.desk);
    const { scope, worked } = around;
    const bedside = new Bedside(around, this.desk);
    bedside.scrutinise(this.desk);
    this.patients.push(...bedside.allPatients);
    this.orders.push(...bedside.allOrders);
    this.unreadOrders.push(...bedside.unreadOrders);
    this.acceptances.push(...scope.acceptances);
    for (const mixture of worked.values()) {
      this.mixtures.push(mixture);
      const { block } = mixture.entity;
      for (const node of mixture.claims) this.ask({ node, block, open: mixture.entity }, around, bedside);
    }
    for (const line of scope.loose) this.ask(line, around, bedside);
    if (note) new ProseBinder(around, bedside, this.desk, this.bound).bind(note);
    // Last, so that what a line says of a name from another note is said by the line itself.
    this.scopes.push({
      ...scope,
      blocks: blocks.map(({ block }) => block),
      nameUses: nameUses(blocks, scope, around),
      imported: around.imports.keys(),
    });
  }

  model(note: NoteText): WorkedNoteModel {
    const { unreadOrders, acceptances, claims, shows, comparisons, whatIfs } = this;
    const byPlace = (a: { entity: Entity }, b: { entity: Entity }) => placeOf(a.entity) - placeOf(b.entity);
    return {
      source: note.source,
      policy: this.policy,
      blocks: note.blocks,
      scopes: this.scopes,
      mixtures: this.mixtures.sort(byPlace),
      patients: this.patients.sort(byPlace),
      orders: this.orders.sort(byPlace),
      unreadOrders,
      acceptances,
      claims,
      shows,
      comparisons,
      whatIfs,
      ...this.bound,
      mentions: this.desk.mentions,
      faults: this.desk.faults.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end),
    };
  }

  private ask({ node, block, open }: LooseLine, around: ScopeFluids, bedside: Bedside): void {
    const asker = new Asker(block, { ...around, choices: new Choices() }, bedside, this.desk);
    if (node.kind === 'claim' || node.kind === 'target') push(this.claims, asker.claim(node, open));
    else if (node.kind === 'show') push(this.shows, asker.show(node, open));
    else if (node.kind === 'what-if') this.askWhatIf(node, block, open, around, bedside);
    else if (node.kind === 'compare') push(this.comparisons, asker.compare(node));
  }

  private askWhatIf(node: WhatIfNode, block: Block, open: Entity | null, around: ScopeFluids, bedside: Bedside): void {
    this.whatIfLines += 1;
    if (this.whatIfLines <= MOST_WHAT_IFS)
      push(this.whatIfs, workWhatIf(node, block, open, around, bedside, this.desk));
    else if (this.whatIfLines === MOST_WHAT_IFS + 1) {
      const { span } = node;
      new Reporter(block, this.desk).at(span, { code: 'over-limit', span, what: 'what-ifs', limit: MOST_WHAT_IFS });
    }
  }
}

function push<T>(list: T[], item: T | null): void {
  if (item) list.push(item);
}

function placeOf(entity: Entity): number {
  return entity.block.toSource(entity.header).start;
}

function lineCount(text: string): number {
  let count = 1;
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) count += 1;
  return count;
}
