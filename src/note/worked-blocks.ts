/** Works out the blocks of a note: scopes, mixtures and the questions asked of them. Not its prose. */
import type { Block } from '../markdown/note-text.ts';
import type { WhatIfNode } from '../notation/ast.ts';
import { type BlockSyntax, LIMITS } from '../notation/index.ts';
import type { Located } from './faults.ts';
import { type Lookups, NO_BEDSIDE } from './lookups.ts';
import type { Task, Worker } from './memo.ts';
import type {
  Acceptance,
  Entity,
  LooseLine,
  Scope,
  WorkedClaim,
  WorkedComparison,
  WorkedMixture,
  WorkedNoteModel,
  WorkedShow,
} from './model.ts';
import type { WorkedOrder, WorkedPatient } from './order-model.ts';
import { orderWording } from './order-wording.ts';
import { Bedside } from './orders/bedside.ts';
import { NO_SUBSTANCES } from './own-substances.ts';
import { DEFAULT_POLICY, type Policy } from './policy.ts';
import { type Answered, LOOSE_LINE, OWN_CLAIMS } from './questions.ts';
import { type Desk, Reporter } from './reporter.ts';
import { type GatheredBlock, gatherBlock, type ReadBlock, scopeOf } from './scope.ts';
import { type ScopeFluids, workFluids } from './scope-fluids.ts';
import type { UsedNotes } from './use/given.ts';
import { NO_IMPORTS } from './use/imports.ts';
import { MOST_WHAT_IFS, type WhatIf, workWhatIf } from './what-if/what-if.ts';

/** Reads a block's text. */
export type BlockReader = (text: string) => BlockSyntax;

/** A scope with what it was worked out from, and what is asked in it is answered by. */
export interface WorkedScope {
  readonly scope: Scope;
  readonly read: readonly ReadBlock[];
  readonly around: Lookups;
}

type OfBlocks =
  | 'mixtures'
  | 'patients'
  | 'orders'
  | 'unreadOrders'
  | 'acceptances'
  | 'claims'
  | 'shows'
  | 'comparisons'
  | 'whatIfs'
  | 'mentions'
  | 'faults';

/** All that follows from the blocks. Its places follow them, so that it holds for as long as the blocks are the same. */
export interface WorkedBlocks extends Pick<WorkedNoteModel, OfBlocks> {
  /** Each `alone` block by itself, then what all the others share. */
  readonly scopes: readonly WorkedScope[];
}

export function workBlocks(
  blocks: readonly Block[],
  read: BlockReader,
  policy: Policy,
  used: UsedNotes,
  worker: Worker,
): WorkedBlocks {
  const note = new BlocksWorker(blockByItself(read), policy, used, worker);
  const shared: BlockByItself[] = [];
  for (const block of blocks) {
    const gathered = note.readBlock(block);
    if (!gathered) continue;
    if (block.mode === 'alone') note.scope([gathered]);
    else shared.push(gathered);
  }
  note.scope(shared);
  return note.worked();
}

/** What is known of a block without looking at another. */
interface BlockByItself {
  readonly read: ReadBlock;
  readonly gathered: GatheredBlock;
}

class BlocksWorker {
  private readonly desk: Desk = { faults: [], mentions: [] };
  private readonly scopes: WorkedScope[] = [];
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

  constructor(
    private readonly byItself: Task<Block, BlockByItself | null>,
    private readonly policy: Policy,
    private readonly used: UsedNotes,
    private readonly worker: Worker,
  ) {}

  /** null for a `skip` block, of which only the fence is looked at, and beyond the lines that are read of a note. */
  readBlock(block: Block): BlockByItself | null {
    if (block.mode !== 'skip' && this.isBeyond(block)) return null;
    return this.worker.do(this.byItself, block, NOTHING_AROUND, this.desk);
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

  scope(blocks: readonly BlockByItself[]): void {
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
      if (mixture.claims.length === 0) continue;
      for (const answer of this.worker.do(OWN_CLAIMS, entity, around, this.desk)) this.answer(answer);
    }
    for (const line of scope.loose) {
      if (line.node.kind === 'what-if') this.askWhatIf(line.node, line, fluids, bedside);
      else this.answer(this.worker.do(LOOSE_LINE, line, around, this.desk));
    }
    this.scopes.push({ scope, read: blocks.map((one) => one.read), around });
  }

  worked(): WorkedBlocks {
    const { scopes, unreadOrders, acceptances, claims, shows, comparisons, whatIfs } = this;
    const { mentions, faults } = this.desk;
    return {
      scopes,
      mixtures: this.mixtures.sort(byPlace),
      patients: this.patients.sort(byPlace),
      orders: this.orders.sort(byPlace),
      unreadOrders,
      acceptances,
      claims,
      shows,
      comparisons,
      whatIfs,
      mentions,
      faults: faults.sort(byPlaceOf),
    };
  }

  private answer({ claim, show, comparison }: Answered): void {
    push(this.claims, claim);
    push(this.shows, show);
    push(this.comparisons, comparison);
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

function blockByItself(parse: BlockReader): Task<Block, BlockByItself | null> {
  return {
    kind: 'block',
    work(block, _, { faults }) {
      if (!block.closed) faults.push({ at: block.info, fault: { code: 'unclosed-fence' } });
      for (const { text, span } of block.strayInfo)
        faults.push({ at: span, fault: { code: 'stray-info', found: text } });
      if (block.mode === 'skip') return null;
      const syntax = parse(block.text);
      for (const fault of syntax.faults) faults.push({ at: block.place(fault.span), fault });
      const read = { block, syntax };
      faults.push(...orderWording(read));
      return { read, gathered: gatherBlock(read, faults) };
    },
  };
}

/** As they are read. */
export function byPlaceOf(a: Located, b: Located): number {
  return a.at.start - b.at.start || a.at.end - b.at.end;
}

function push<T>(list: T[], item: T | null): void {
  if (item) list.push(item);
}

/** As they stand in the note. */
function byPlace({ entity: a }: { readonly entity: Entity }, { entity: b }: { readonly entity: Entity }): number {
  return a.block.start - b.block.start || a.header.start - b.header.start;
}

function lineCount(text: string): number {
  let count = 1;
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) count += 1;
  return count;
}
