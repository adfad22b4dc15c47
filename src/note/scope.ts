/** Sorts the lines of a note's blocks into entities and scopes, before any name is looked up. */
import { findIon, findObservable, findSolute, findUnit } from '../engine/index.ts';
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type {
  AcceptNode,
  BlockSyntax,
  GiveNode,
  HeaderNode,
  Name,
  Span,
  Statement,
  UnreadNode,
} from '../notation/ast.ts';
import type { Located, Misplaced } from './faults.ts';
import type { Acceptance, Entity, LooseLine, Scope, UseLine } from './model.ts';

export interface ReadBlock {
  readonly block: Block;
  readonly syntax: BlockSyntax;
}

/** What the lines of one block are, by themselves. */
export interface GatheredBlock extends Omit<Scope, 'names'> {
  /** The entities among them that give their name to something. */
  readonly naming: readonly Entity[];
}

interface OpenEntity {
  kind: Entity['kind'];
  name: Name | null;
  title: HeaderNode['title'];
  block: Block;
  header: Entity['header'];
  give: GiveNode | null;
  end: number;
  body: Statement[];
  spoiledBy: SourceSpan | null;
}

/** Words after which an unread line withholds only itself: nothing is made from them. */
const CHECKS_ONLY = new Set(['claim', 'contains', 'show', 'ask', 'what-if', 'compare', 'accept', 'use']);
const HEADERS = new Set(['mixture', 'stock', 'substance', 'patient', 'give']);
/** What an acceptance directly below takes as a whole. */
const OPENING: ReadonlySet<string> = HEADERS;

/** Adds what it finds wrong to `faults`. */
export function gatherBlock(read: ReadBlock, faults: Located[]): GatheredBlock {
  return new Gatherer(read.block, faults).gather(read.syntax);
}

/** Blocks that share one scope, in the order of the note. Adds names that are given twice to `faults`. */
export function scopeOf(blocks: readonly GatheredBlock[], faults: Located[]): Scope {
  const entities: Entity[] = [];
  const loose: LooseLine[] = [];
  const uses: UseLine[] = [];
  const acceptances: Acceptance[] = [];
  for (const block of blocks) {
    for (const entity of block.entities) entities.push(entity);
    for (const line of block.loose) loose.push(line);
    for (const use of block.uses) uses.push(use);
    for (const acceptance of block.acceptances) acceptances.push(acceptance);
  }
  return { entities, names: bindNames(blocks, faults), loose, uses, acceptances };
}

/** A name that is given twice is bound to nothing. */
function bindNames(blocks: readonly GatheredBlock[], faults: Located[]): Scope['names'] {
  const names = new Map<string, Entity | 'duplicate'>();
  /** Of the names that are given twice. */
  const first = new Map<string, Entity>();
  for (const { naming } of blocks) {
    for (const entity of naming) {
      const { name, block } = entity;
      if (!name) continue;
      const earlier = names.get(name.key);
      if (!earlier) {
        names.set(name.key, entity);
        continue;
      }
      if (earlier !== 'duplicate') first.set(name.key, earlier);
      names.set(name.key, 'duplicate');
      const given = first.get(name.key)!;
      const at = block.place(name.span);
      const there = given.block.place(given.name!.span);
      faults.push({ at, fault: { code: 'duplicate-name', name: name.text, first: there } });
    }
  }
  return names;
}

class Gatherer {
  private readonly entities: OpenEntity[] = [];
  private readonly loose: LooseLine[] = [];
  private readonly uses: UseLine[] = [];
  private readonly acceptances: Acceptance[] = [];
  /** The line that an acceptance below it is about; null: the entity as a whole. */
  private above: Span | null = null;
  private open: OpenEntity | null = null;

  constructor(
    private readonly here: Block,
    private readonly faults: Located[],
  ) {}

  gather({ statements }: BlockSyntax): GatheredBlock {
    for (const node of statements) {
      this.line(node);
      this.reach(node.span.end);
    }
    const naming = this.entities.filter((entity) => entity.name && !this.isTaken(entity, entity.name));
    const { entities, loose, uses, acceptances } = this;
    return { entities, loose, uses, acceptances, naming };
  }

  private reach(end: number): void {
    if (this.open) this.open.end = end;
  }

  private line(node: Statement): void {
    switch (node.kind) {
      case 'mixture':
      case 'stock':
      case 'substance':
      case 'patient':
        this.start(node.kind, node.name, node.title, node);
        break;
      case 'give': {
        const named = node.clauses.find((clause) => clause.kind === 'name');
        this.start('give', named?.kind === 'name' ? named.name : null, null, node, node);
        break;
      }
      case 'unread':
        this.unread(node);
        break;
      case 'addition':
      case 'by-volume':
      case 'make-up':
      case 'withdraw':
      case 'exchange':
        this.step(node);
        break;
      case 'property':
      case 'word-property':
      case 'gives':
        this.property(node);
        break;
      case 'target':
        if (this.open?.kind === 'mixture') this.open.body.push(node);
        else if (this.open) this.elsewhere(this.open, node, 'target-outside-mixture');
        else this.misplaced(node, 'target-outside-mixture');
        break;
      case 'claim':
      case 'show':
      case 'what-if':
        this.loose.push({ node, block: this.here, open: this.open });
        break;
      case 'compare':
        this.open = null;
        this.loose.push({ node, block: this.here, open: null });
        break;
      case 'use':
        this.open = null;
        this.uses.push({ node, block: this.here });
        break;
      case 'accept':
        if (this.open) this.accept(this.open, node);
        else this.misplaced(node, 'accept-outside-entity');
        return;
    }
    this.above = OPENING.has(node.kind) ? null : node.span;
  }

  private start(
    kind: Entity['kind'],
    name: Name | null,
    title: HeaderNode['title'],
    node: Statement,
    give: GiveNode | null = null,
  ): void {
    this.open = {
      kind,
      name,
      title,
      block: this.here,
      header: node.span,
      give,
      end: node.span.end,
      body: [],
      spoiledBy: null,
    };
    this.entities.push(this.open);
  }

  private accept(open: OpenEntity, node: AcceptNode): void {
    this.acceptances.push({ node, block: this.here, entity: open, line: this.above });
  }

  private unread(node: UnreadNode): void {
    if (node.keyword && HEADERS.has(node.keyword)) {
      this.open = {
        kind: node.keyword as Entity['kind'],
        name: node.name,
        title: null,
        block: this.here,
        header: node.span,
        give: null,
        end: node.span.end,
        body: [],
        spoiledBy: this.at(node),
      };
      this.entities.push(this.open);
      return;
    }
    if (node.keyword === 'compare' || node.keyword === 'use') this.open = null;
    if (node.keyword === 'use') this.uses.push({ node, block: this.here });
    if (this.open && !(node.keyword && CHECKS_ONLY.has(node.keyword))) this.spoil(this.open, node);
  }

  private step(node: Statement): void {
    if (!this.open) this.misplaced(node, 'step-outside-mixture');
    else if (this.open.kind === 'mixture') this.open.body.push(node);
    else this.elsewhere(this.open, node, 'step-in-other-entity');
  }

  private property(node: Statement): void {
    if (!this.open) this.misplaced(node, 'property-outside-entity');
    else if (this.open.kind === 'mixture') this.elsewhere(this.open, node, 'property-in-mixture');
    else if (this.open.kind === 'give') this.elsewhere(this.open, node, 'property-in-order');
    else this.open.body.push(node);
  }

  /** A line that belongs to an entity of another kind: it withholds the one that it stands in. */
  private elsewhere(open: OpenEntity, node: Statement, where: Misplaced): void {
    this.misplaced(node, where);
    this.spoil(open, node);
  }

  private misplaced(node: Statement, where: Misplaced): void {
    this.faults.push({ at: this.at(node), fault: { code: 'misplaced', where } });
  }

  private spoil(entity: OpenEntity, node: Statement): void {
    entity.spoiledBy ??= this.at(node);
  }

  private at(node: Statement): SourceSpan {
    return this.here.place(node.span);
  }

  /** Whether something built in has that name; that is then at fault. */
  private isTaken(entity: OpenEntity, { key, span, text }: Name): boolean {
    const by = nameTakenBy(key);
    if (!by) return false;
    const at = this.here.place(span);
    this.faults.push({ at, fault: { code: 'name-taken', name: text, by } });
    entity.spoiledBy ??= at;
    return true;
  }
}

/** What already answers to a name, so that an author cannot give it to something else; a built-in fluid's may be shadowed. */
export function nameTakenBy(key: string): 'solute' | 'unit' | 'observable' | 'ion' | null {
  if (findIon(key)) return 'ion';
  if (findSolute(key)) return 'solute';
  if (findObservable(key)) return 'observable';
  if (findUnit(key)) return 'unit';
  return null;
}
