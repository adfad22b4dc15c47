/** What can be written at a place in a note: the place is found by shape, the candidates by what the note means. */
import type { NoteReader } from '../../markdown/index.ts';
import type { Block } from '../../markdown/note-text.ts';
import { type Place, placesAt } from '../../notation/index.ts';
import type { WorkedNoteModel } from '../../note/index.ts';
import { isBegun, markAt, targetAt } from './bound.ts';
import { fencesAt } from './fence.ts';
import { figuresFor } from './figures.ts';
import { carriersOf, fluidsFor, solutes } from './fluids.ts';
import { codes, ions, namesOf, routeCandidates, SET } from './names.ts';
import { type Offer, questionsAt } from './observables.ts';
import { pathAt, pathCandidates } from './paths.ts';
import { type Scene, sceneAt } from './scene.ts';
import { COMPARE, lineStarts } from './statements.ts';
import type { Candidate, Completion, Completions } from './types.ts';
import { unitsFor } from './units.ts';

/** How many are given at most. */
const MOST = 200;
const NOTHING: Completions = { items: [], cut: false, wantsPaths: false };

/**
 * `typed` is the character whose typing asks, or null where the author asks. What could as well end its line is offered
 * only to an author who asks: a list that opens by itself would take the Enter that was meant for the line.
 */
export function completionsAt(
  model: WorkedNoteModel,
  offset: number,
  typed: string | null,
  reader: NoteReader,
  paths: readonly string[] | null,
): Completions {
  if (!(offset >= 0 && offset <= model.source.length)) return NOTHING;
  const block = model.blocks.find(({ span }) => offset >= span.start && offset <= span.end);
  if (!block) return inProse(model, offset, typed, reader);
  const at = block.toText(offset);
  const scene = at === null ? null : sceneAt(model, block, at);
  if (at === null || !scene || typed === '`' || typed === ':') return NOTHING;
  const path = pathAt(block.text, at);
  if (path) {
    const items = pathCandidates(paths ?? []).map((candidate) => completion(candidate, block.toSource(path)));
    return { items, cut: false, wantsPaths: paths === null };
  }
  return inLine(scene, at, typed);
}

/** In a line of a block, or in the statement of a mark. */
function inLine(scene: Scene, at: number, typed: string | null): Completions {
  const { block, model } = scene;
  const places = placesAt(block.text, at).filter((place) => typed === null || mustFollow(place, typed, at));
  const offers = places.flatMap((place) => offersAt(place, scene, at));
  return chosen(offers, places, block, at, model.source);
}

function mustFollow(place: Place, typed: string, at: number): boolean {
  if (typed === '/') return place.kind === 'unit';
  return place.kind !== 'joint' && place.kind !== 'make-up' && !(place.kind === 'line' && place.phrase.start === at);
}

/** Behind a backtick a fence; in a link or a mark what it is bound to. */
function inProse(model: WorkedNoteModel, offset: number, typed: string | null, reader: NoteReader): Completions {
  if (typed === '`') return fences(model, offset, reader);
  const target = typed === ' ' ? null : targetAt(model, offset);
  if (target) return { ...NOTHING, ...target, items: target.candidates.map((one) => completion(one, target.span)) };
  if (typed === ':') return NOTHING;
  const mark = markAt(model, offset);
  if (!mark) return typed === null ? fences(model, offset, reader) : NOTHING;
  if (isBegun(mark)) return inLine(mark.scene, mark.at, typed);
  return { ...NOTHING, items: [completion(COMPARE, mark.scene.block.span)] };
}

function fences(model: WorkedNoteModel, offset: number, reader: NoteReader): Completions {
  const found = fencesAt(model.source, offset, reader);
  if (!found) return NOTHING;
  return { ...NOTHING, items: found.candidates.map((candidate) => completion(candidate, found.span)) };
}

function offersAt(place: Place, scene: Scene, at: number): readonly Offer[] {
  if (place.kind === 'asked') return questionsAt(place, scene, at);
  return [{ from: place.phrase.start, candidates: candidatesAt(place, scene) }];
}

function candidatesAt(place: Exclude<Place, { kind: 'asked' }>, scene: Scene): readonly Candidate[] {
  switch (place.kind) {
    case 'line':
      return lineStarts(scene);
    case 'fluid':
      return fluidsFor(place, scene);
    case 'carrier':
      return carriersOf(place.ion, scene);
    case 'unit':
      return unitsFor(place.measured, scene).map((unit) => behindNumber(unit, place));
    case 'joint':
      return words(place.words);
    case 'make-up':
      return scene.open?.kind === 'mixture' ? words(['to', 'in', 'with']) : [];
    case 'name':
      return namesOf(place.of, scene);
    case 'route':
      return routeCandidates();
    case 'code':
      return codes(scene);
    case 'solute':
      return [...ions(), ...solutes(scene)];
    case 'ion':
      return ions();
    case 'set':
      return SET;
    case 'figure':
      return figuresFor(place.phrase, scene);
  }
}

function words(labels: readonly string[]): readonly Candidate[] {
  return labels.map((label) => ({ kind: 'word', label }));
}

/** A unit right behind its number brings the space between them. */
function behindNumber(unit: Candidate, { phrase, touching }: Extract<Place, { kind: 'unit' }>): Candidate {
  return touching && phrase.start === phrase.end ? { ...unit, text: ` ${unit.label}` } : unit;
}

/** In place of what is written, the likeliest first; what fits it best where there are too many. */
function chosen(
  offers: readonly Offer[],
  places: readonly Place[],
  block: Block,
  at: number,
  source: string,
): Completions {
  const end = Math.max(at, ...places.map(({ phrase }) => phrase.end));
  const all = offers.flatMap(({ from, candidates }) => {
    const span = block.toSource({ start: from, end });
    return candidates.map((candidate) => withMargin(completion(candidate, span), source));
  });
  const seen = new Set<string>();
  const items = all.filter(({ label, span, kind }) => {
    const key = `${span.start} ${kind} ${label}`;
    return !seen.has(key) && seen.add(key);
  });
  if (items.length <= MOST) return { ...NOTHING, items };
  const written = new Map(
    items.map((item) => [item, fits(item, source, block.toSource({ start: at, end: at }).start)]),
  );
  const best = [...items.filter((item) => written.get(item)), ...items.filter((item) => !written.get(item))];
  return { ...NOTHING, items: best.slice(0, MOST), cut: true };
}

function fits({ filter, span }: Completion, source: string, offset: number): boolean {
  return filter.toLowerCase().includes(source.slice(span.start, offset).toLowerCase());
}

function completion(candidate: Candidate, span: Completion['span']): Completion {
  const { label, text = label, filter = label } = candidate;
  return { ...candidate, text, span, filter };
}

/** The lines of a snippet repeat what stands before its first: a list's or quotation's margin. */
function withMargin(item: Completion, source: string): Completion {
  if (!item.snippet?.includes('\n')) return item;
  const { start } = item.span;
  const line = Math.max(source.lastIndexOf('\n', start - 1), source.lastIndexOf('\r', start - 1)) + 1;
  return { ...item, snippet: item.snippet.replaceAll('\n', `\n${source.slice(line, start)}`) };
}
