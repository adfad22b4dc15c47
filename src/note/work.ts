/** Works out a whole note: its blocks, scopes, mixtures and the questions asked of them. */
import type { Block, NoteText } from '../markdown/note-text.ts';
import type { WhatIfNode } from '../notation/ast.ts';
import { type BlockSyntax, LIMITS, parseBlock } from '../notation/index.ts';
import { type BoundProse, ProseBinder } from './bound-prose.ts';
import { type Lookups, NO_BEDSIDE } from './lookups.ts';
import { ANEW, type Memo, type Task, type Worker } from './memo.ts';
import type {
  Acceptance,
  Entity,
  LooseLine,
  NameUse,
  ReadScope,
  Scope,
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
import { NO_SUBSTANCES } from './own-substances.ts';
import { DEFAULT_POLICY, type Policy } from './policy.ts';
import { proseWording } from './prose-wording.ts';
import { type Answered, looseLine, ownClaims } from './questions.ts';
import { type Desk, Reporter } from './reporter.ts';
import { type GatheredBlock, gatherBlock, movedBlock, type ReadBlock, scopeOf } from './scope.ts';
import { type ScopeFluids, workFluids } from './scope-fluids.ts';
import { NO_NOTES, type UsedNotes } from './use/given.ts';
import { NO_IMPORTS } from './use/imports.ts';
import { MOST_WHAT_IFS, type WhatIf, workWhatIf } from './what-if/what-if.ts';

/** Reads a block's text; a caller may pass one that remembers earlier texts. */
export type BlockReader = (text: string) => BlockSyntax;

/**
 * Total: any note gives a model, with its faults in the order of the note. `used`: what other notes give it; `memo`: what
 * an earlier version of the note came to, which changes nothing but the time.
 */
export function workNote(
  note: NoteText,
  read: BlockReader = parseBlock,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
  memo: Memo | null = null,
): WorkedNoteModel {
  const worker = new NoteWorker(policy, used, memo?.version(note.blocks, policy) ?? ANEW);
  const shared: BlockByItself[] = [];
  for (const block of note.blocks) {
    const gathered = worker.readBlock(block, read);
    if (!gathered) continue;
    if (block.mode === 'alone') worker.scope([gathered]);
    else shared.push(gathered);
  }
  worker.scope(shared, note);
  if (policy.prose) worker.prose(note);
  return worker.model(note);
}

/** What is known of a block without looking at another. */
interface BlockByItself {
  readonly read: ReadBlock;
  readonly gathered: GatheredBlock;
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
  private readonly bound: BoundProse = { numbers: [], tables: [], leftAlone: [], links: [] };

  constructor(
    private readonly policy: Policy,
    private readonly used: UsedNotes,
    private readonly worker: Worker,
  ) {}

  /** null for a `skip` block, of which only the fence is looked at, and beyond the lines that are read of a note. */
  readBlock(block: Block, read: BlockReader): BlockByItself | null {
    if (block.mode !== 'skip' && this.isBeyond(block)) return null;
    return this.worker.do(blockByItself(block, read), NOTHING_AROUND, this.desk);
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
  scope(blocks: readonly BlockByItself[], note: NoteText | null = null): void {
    const scope = scopeOf(
      blocks.map(({ gathered }) => gathered),
      this.desk.faults,
    );
    const fluids = workFluids(scope, this.policy, this.used, this.worker, this.desk);
    const bedside = new Bedside(fluids, this.worker, this.desk);
    const { around } = bedside;
    bedside.scrutinise(this.desk);
    this.patients.push(...bedside.allPatients);
    this.orders.push(...bedside.allOrders);
    this.unreadOrders.push(...bedside.unreadOrders);
    this.acceptances.push(...scope.acceptances);
    for (const [entity, mixture] of fluids.worked) {
      this.mixtures.push(mixture);
      if (mixture.claims.length > 0) this.answer(this.worker.do(ownClaims(entity), around, this.desk));
    }
    for (const line of scope.loose) {
      if (line.node.kind === 'what-if') this.askWhatIf(line.node, line, fluids, bedside);
      else this.answer(this.worker.do(looseLine(line), around, this.desk));
    }
    if (note) new ProseBinder(around, this.desk, this.bound).bind(note);
    const read = blocks.map((one) => one.read);
    this.scopes.push(readScope(scope, read, around, note));
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

  private answer(answers: readonly Answered[]): void {
    for (const { claim, show, comparison } of answers) {
      push(this.claims, claim);
      push(this.shows, show);
      push(this.comparisons, comparison);
    }
  }

  /** Not remembered: there are few of them, and their rows are worked out when somebody looks. */
  private askWhatIf(node: WhatIfNode, { block, open }: LooseLine, fluids: ScopeFluids, bedside: Bedside): void {
    this.whatIfLines += 1;
    if (this.whatIfLines <= MOST_WHAT_IFS)
      push(this.whatIfs, workWhatIf(node, block, open, { fluids, bedside, desk: this.desk }));
    else if (this.whatIfLines === MOST_WHAT_IFS + 1) {
      const { span } = node;
      new Reporter(block, this.desk).at(span, { code: 'over-limit', span, what: 'what-ifs', limit: MOST_WHAT_IFS });
    }
  }
}

const NOTHING_AROUND: Lookups = {
  ...NO_BEDSIDE,
  scope: { entities: [], names: new Map() },
  worked: new Map(),
  own: NO_SUBSTANCES,
  imports: NO_IMPORTS,
  policy: DEFAULT_POLICY,
};

function blockByItself(block: Block, parse: BlockReader): Task<BlockByItself | null> {
  return {
    kind: 'block',
    of: block,
    work(_, { faults }) {
      if (!block.closed) faults.push({ at: block.info, fault: { code: 'unclosed-fence' } });
      for (const { text, span } of block.strayInfo)
        faults.push({ at: span, fault: { code: 'stray-info', found: text } });
      if (block.mode === 'skip') return null;
      const syntax = parse(block.text);
      for (const fault of syntax.faults) faults.push({ at: block.toSource(fault.span), fault });
      const read = { block, syntax };
      faults.push(...orderWording(read));
      return { read, gathered: gatherBlock(read, faults) };
    },
    moved: (before, now) =>
      before && { read: { ...before.read, block }, gathered: movedBlock(before.gathered, block, now) },
  };
}

/** Where names stand is looked for when it is asked for. */
function readScope(scope: Scope, blocks: readonly ReadBlock[], around: Lookups, note: NoteText | null): ReadScope {
  let uses: readonly NameUse[] | null = null;
  return {
    ...scope,
    blocks: blocks.map(({ block }) => block),
    imported: around.imports.keys(),
    get nameUses() {
      uses ??= nameUses(blocks, scope, around, note?.bound() ?? null);
      return uses;
    },
  };
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
