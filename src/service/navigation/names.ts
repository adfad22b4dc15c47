/** The note's own name at a place, and all its places. */
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { NameUse, ReadScope, WorkedNoteModel } from '../../note/index.ts';
import type { FoundName, NoteLink } from './types.ts';

export interface UsedName extends FoundName {
  readonly scope: ReadScope;
  readonly of: NameUse['of'];
  readonly uses: readonly NameUse[];
}

export function nameAt(model: WorkedNoteModel, offset: number): UsedName | null {
  const link = model.links.find(({ at }) => at.start <= offset && offset <= at.end);
  return usedAt(model, offset) ?? (link ? usedAt(model, link.name.start) : null);
}

function usedAt(model: WorkedNoteModel, offset: number): UsedName | null {
  for (const scope of model.scopes) {
    const here = scope.nameUses.find(({ at }) => at.start <= offset && offset <= at.end);
    if (!here) continue;
    const uses = scope.nameUses.filter(({ of }) => isSame(of, here.of));
    const places = uses.map(({ at, gives }) => ({ span: at, gives }));
    return { name: model.source.slice(here.at.start, here.at.end), span: here.at, places, scope, of: here.of, uses };
  }
  return null;
}

function isSame(one: NameUse['of'], other: NameUse['of']): boolean {
  if (one.kind === 'entity') return other.kind === 'entity' && one.entity === other.entity;
  return other.kind === 'ion' && one.key === other.key;
}

/** Links in prose, each with the place where what it names is given; those without one in the note are left out. */
export function linksOf({ scopes, links }: WorkedNoteModel): readonly NoteLink[] {
  const uses = new Map<number, NameUse>();
  const given = new Map<object | string, SourceSpan>();
  for (const use of scopes.flatMap(({ nameUses }) => nameUses)) {
    uses.set(use.at.start, use);
    if (use.gives) given.set(keyOf(use.of), use.at);
  }
  return links.flatMap(({ at, name }) => {
    const use = uses.get(name.start);
    const to = use && given.get(keyOf(use.of));
    return to ? [{ span: at, to }] : [];
  });
}

function keyOf(of: NameUse['of']): object | string {
  return of.kind === 'entity' ? of.entity : of.key;
}
