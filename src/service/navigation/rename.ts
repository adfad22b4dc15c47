/** Another name for something of a note's own, in all its places at once. */
import { findShorthand, findStockFluid } from '../../engine/index.ts';
import { keyOf, LIMITS, parseBlock } from '../../notation/index.ts';
import { type Edit, type NameUse, nameTakenBy, type WorkedNoteModel, writtenTarget } from '../../note/index.ts';
import { applied } from '../edits.ts';
import { nameAt, type UsedName } from './names.ts';
import type { Renaming } from './types.ts';

/**
 * Refused where the new name cannot be one, is taken, or would make other lines of the note mean something else: the
 * note is worked out as it would be, by `work`, and every place of every name must be the same as before.
 */
export function renamed(
  model: WorkedNoteModel,
  offset: number,
  wanted: string,
  work: (source: string) => WorkedNoteModel,
): Renaming | null {
  const used = nameAt(model, offset);
  if (!used) return null;
  const name = wanted.trim();
  const why = isOfNoUse(used, name) ?? isTaken(used, name);
  if (why) return { ok: false, why };
  const named = used.uses.map(({ at, inTarget }) => ({ span: at, text: inTarget ? writtenTarget(name) : name }));
  const edits = withTables(named, model, work(applied(model.source, named)));
  if (!sameNames(model, work(applied(model.source, edits)))) {
    return { ok: false, why: `With the name ‘${name}’ other lines of this note would mean something else.` };
  }
  return { ok: true, edits };
}

/** A table that was true and shows the name is written anew with the other one. */
function withTables(named: readonly Edit[], before: WorkedNoteModel, after: WorkedNoteModel): readonly Edit[] {
  const anew = before.tables.flatMap(({ stale, edit }, index) => {
    const then = after.tables[index];
    return !stale && then?.stale ? [{ span: edit.span, text: then.edit.text }] : [];
  });
  if (anew.length === 0) return named;
  const kept = named.filter(({ span: { start, end } }) =>
    anew.every(({ span }) => end <= span.start || span.end <= start),
  );
  return [...kept, ...anew].sort((a, b) => a.span.start - b.span.start);
}

/** Why a text is no name at all, as a header reads it. */
function isOfNoUse({ of }: UsedName, name: string): string | null {
  if (name === '') return 'A name has at least one letter.';
  if (/[\r\n]/.test(name)) return 'A name stands on one line.';
  const words = of.kind === 'entity' && of.entity.kind === 'substance' ? 'substance' : 'mixture';
  const { statements, faults } = parseBlock(`${words} ${name}`);
  const [header] = statements;
  switch (faults[0]?.code) {
    case undefined:
      break;
    case 'reserved-name':
      return `‘${faults[0].found}’ is a word of the notation itself.`;
    case 'over-limit':
      return `A name has at most ${LIMITS.nameLength} characters.`;
    default:
      return words === 'substance'
        ? `‘${name}’ is not read as a name: each of its words begins with a letter and has letters, digits and hyphens only.`
        : `‘${name}’ is not read as a name: it is one word that begins with a letter and has letters, digits and hyphens only.`;
  }
  const whole = header?.kind === words && header.name.text === name;
  return whole ? null : `‘${name}’ is not read as a name.`;
}

function isTaken({ scope, of, name: before }: UsedName, name: string): string | null {
  const key = keyOf(name);
  if (key === keyOf(before)) return null;
  const by = nameTakenBy(key);
  if (by) return `‘${name}’ already names ${by === 'ion' ? 'an' : 'a'} ${WHAT[by]}.`;
  if (findStockFluid(key) || findShorthand(key)) return `‘${name}’ already names a fluid.`;
  const own = scope.names.get(key);
  if (own)
    return `‘${name}’ is already given to ${own === 'duplicate' ? 'two things' : 'something else'} in this note.`;
  const ion = scope.nameUses.some((use) => use.of.kind === 'ion' && use.of.key === key);
  return ion && of.kind === 'entity' ? `‘${name}’ already names an ion of this note.` : null;
}

const WHAT = { ion: 'ion', solute: 'solute', observable: 'result', unit: 'unit' } as const;

/** As many names in as many places, and as many findings. */
function sameNames(before: WorkedNoteModel, after: WorkedNoteModel): boolean {
  const shape = ({ scopes, faults }: WorkedNoteModel) =>
    JSON.stringify([scopes.map(({ nameUses }) => usesByThing(nameUses)), faults.map(({ fault }) => fault.code)]);
  return shape(before) === shape(after);
}

/** Each place as the place that first named the same thing. */
function usesByThing(uses: readonly NameUse[]): readonly number[] {
  const first = new Map<unknown, number>();
  return uses.map(({ of }, index) => {
    const thing = of.kind === 'entity' ? of.entity : of.key;
    if (!first.has(thing)) first.set(thing, index);
    return first.get(thing)!;
  });
}
