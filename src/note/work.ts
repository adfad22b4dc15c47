/** Works out a whole note: its blocks, and the prose that is bound to them. */
import type { NoteText } from '../markdown/note-text.ts';
import { parseBlock } from '../notation/index.ts';
import { type BoundProse, ProseBinder } from './bound-prose.ts';
import { ANEW, type Memo } from './memo.ts';
import type { NameUse, ReadScope, Scope, WorkedNoteModel } from './model.ts';
import { nameUses } from './name-uses.ts';
import { DEFAULT_POLICY, type Policy } from './policy.ts';
import { proseWording } from './prose-wording.ts';
import type { Desk } from './reporter.ts';
import { NO_NOTES, type UsedNotes } from './use/given.ts';
import { type BlockReader, byPlaceOf, type WorkedBlocks, type WorkedScope, workBlocks } from './worked-blocks.ts';

export type { BlockReader } from './worked-blocks.ts';

/**
 * Total: any note gives a model, with its faults in the order of the note. `used`: what other notes give it; `memo`: what
 * an earlier version of the note came to, which changes nothing but the time. The model's places follow the note's blocks:
 * where a later version is read by the same reader, this one is settled before it is looked at again.
 */
export function workNote(
  note: NoteText,
  read: BlockReader = parseBlock,
  policy: Policy = DEFAULT_POLICY,
  used: UsedNotes = NO_NOTES,
  memo: Memo | null = null,
): WorkedNoteModel {
  const { blocks } = note;
  const whole = memo?.whole({ blocks, policy, used });
  const worked = whole ?? workBlocks(blocks, read, policy, used, memo?.worker(policy) ?? ANEW);
  memo?.keep({ blocks, policy, used }, worked);
  return withProse(worked, note, policy);
}

function withProse(worked: WorkedBlocks, note: NoteText, policy: Policy): WorkedNoteModel {
  const { scopes, mentions, faults, ...rest } = worked;
  const desk: Desk = { faults: [], mentions: [] };
  const bound: BoundProse = { numbers: [], tables: [], leftAlone: [], links: [] };
  const shared = scopes.at(-1);
  if (shared) new ProseBinder(shared.around, desk, bound).bind(note);
  if (policy.prose) for (const located of proseWording(note)) desk.faults.push(located);
  return {
    source: note.source,
    policy,
    blocks: note.blocks,
    scopes: scopes.map((scope) => readScope(scope, scope === shared ? note : null)),
    ...rest,
    ...bound,
    mentions: desk.mentions.length > 0 ? [...mentions, ...desk.mentions] : mentions,
    faults: desk.faults.length > 0 ? [...faults, ...desk.faults].sort(byPlaceOf) : faults,
  };
}

/** `note`: the prose that is bound to the scope. */
function readScope({ scope, read, around }: WorkedScope, note: NoteText | null): ReadScope {
  const uses = () => nameUses(read, scope, around, note?.bound() ?? null);
  return new SearchedScope(
    scope,
    read.map(({ block }) => block),
    around.imports.keys(),
    uses,
  );
}

/**
 * Where names stand is looked for when it is asked for. A class, since of an object that is written out with a getter each
 * has a shape of its own, which holds the note until all memory is gone through.
 */
class SearchedScope implements ReadScope {
  readonly entities: ReadScope['entities'];
  readonly names: ReadScope['names'];
  readonly loose: ReadScope['loose'];
  readonly uses: ReadScope['uses'];
  readonly acceptances: ReadScope['acceptances'];
  private found: readonly NameUse[] | null = null;

  constructor(
    scope: Scope,
    readonly blocks: ReadScope['blocks'],
    readonly imported: ReadScope['imported'],
    private readonly search: () => readonly NameUse[],
  ) {
    this.entities = scope.entities;
    this.names = scope.names;
    this.loose = scope.loose;
    this.uses = scope.uses;
    this.acceptances = scope.acceptances;
  }

  get nameUses(): readonly NameUse[] {
    this.found ??= this.search();
    return this.found;
  }
}
