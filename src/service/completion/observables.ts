/** What can be asked of a mixture, an order or a patient. */
import { findObservable, fixedObservables, ionObservable, ionOf, type Observable } from '../../engine/index.ts';
import type { Place } from '../../notation/index.ts';
import { keyOf } from '../../notation/index.ts';
import { canBeTarget } from '../../note/index.ts';
import { type Asked, askedOf, FLUID, mixtureOf, named, type Scene, subjectIn } from './scene.ts';
import type { Candidate } from './types.ts';

type AskedPlace = Extract<Place, { kind: 'asked' }>;

/** Candidates with the place in the block from which each is written. */
export interface Offer {
  readonly from: number;
  readonly candidates: readonly Candidate[];
}

const TONICITIES: readonly Candidate[] = ['hypotonic', 'isotonic', 'hypertonic'].map((label) => ({
  kind: 'word',
  label,
}));

export function questionsAt(place: AskedPlace, scene: Scene, at: number): readonly Offer[] {
  const { phrase, by, before } = place;
  const written = { start: phrase.start, end: at };
  const subject = before ? null : subjectIn(scene, written);
  const asked = subject?.asked ?? (before ? FLUID : usualSubject(place, scene));
  const offers: Offer[] = [
    { from: subject?.rest ?? phrase.start, candidates: asked ? observables(asked, by, scene) : [] },
  ];
  if (by === 'claim') offers.push(tonicities(scene, subject?.rest ?? phrase.start, at));
  if (by !== 'compare' && by !== 'target' && !before && !subject) {
    const names = { from: phrase.start, candidates: subjects(scene) };
    if (asked) offers.push(names);
    else offers.unshift(names);
  }
  return offers;
}

/** Of the entity above, or of what the line's first question names. */
function usualSubject({ by, first }: AskedPlace, scene: Scene): Asked | null {
  if (by === 'compare') return FLUID;
  return (first && subjectIn(scene, first)?.asked) || askedOf(scene.open);
}

export function observables({ entity, is }: Asked, by: AskedPlace['by'], scene: Scene): readonly Candidate[] {
  const fits = (observable: Observable) => observable.of.includes(is) && (by !== 'target' || canBeTarget(observable));
  const fixed = fixedObservables().filter(fits);
  const mixture = mixtureOf(scene, entity);
  const own = is === 'patient' ? [] : ownObservables(scene);
  const held = is === 'patient' ? [] : solutesOf(mixture?.contents ?? null);
  const ions = new Set([...(mixture?.contents?.particles.keys() ?? [])].map((particle) => ionOf(particle)));
  const present = fixed.filter(({ kind, ion }) => kind === 'ion' && ions.has(ion));
  const shown = [...present, ...fixed.filter((observable) => !present.includes(observable))];
  return [...shown.map(({ name, unit }) => candidate(name, unit)), ...held, ...own];
}

function candidate(label: string, unit: string): Candidate {
  return { kind: 'observable', label, detail: unit || 'without a unit' };
}

/** Solutes as they were added, less those that are asked for by the same name as an ion. */
function solutesOf(
  contents: { readonly solutes: ReadonlyMap<{ readonly family: string }, unknown> } | null,
): Candidate[] {
  const families = new Set([...(contents?.solutes.keys() ?? [])].map(({ family }) => family));
  return [...families].flatMap((family) => {
    const observable = findObservable(keyOf(family));
    return observable ? [candidate(family, observable.unit)] : [];
  });
}

function ownObservables(scene: Scene): readonly Candidate[] {
  const ions = scene.scope.nameUses.flatMap(({ of, at, gives }) =>
    of.kind === 'ion' && gives ? [scene.model.source.slice(at.start, at.end)] : [],
  );
  const { unit } = ionObservable(SODIUM);
  return [
    ...named(scene, 'substance').map(({ name }) => candidate(name!.text, '')),
    ...[...new Set(ions)].map((ion) => candidate(ion, unit)),
  ];
}

const SODIUM = findObservable('sodium')!.ion!;

/** Behind `tonicity in the body` its three words. */
function tonicities({ block }: Scene, from: number, at: number): Offer {
  const text = block.text.slice(from, at);
  const space = text.search(/\s\S*$/);
  const observable = space < 0 ? null : findObservable(keyOf(text.slice(0, space)));
  const fits = observable?.kind === 'tonicity-bag' || observable?.kind === 'tonicity-body';
  return { from: from + space + 1, candidates: fits ? TONICITIES : [] };
}

/** Names of the note that can be asked about. */
function subjects(scene: Scene): readonly Candidate[] {
  return named(scene, 'mixture', 'stock', 'give', 'patient').map(({ name, kind, title }) => ({
    kind: kind === 'give' ? 'order' : (kind as 'mixture' | 'stock' | 'patient'),
    label: name!.text,
    detail: title?.text ?? (kind === 'give' ? 'order' : kind),
  }));
}
