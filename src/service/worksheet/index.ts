/** The worksheet of a mixture that is named or pointed at, or in words why there is none. */
import { findingOf, messageOf } from '../../checks/index.ts';
import { nearNames } from '../../engine/index.ts';
import { keyOf } from '../../notation/index.ts';
import type { WorkedMixture, WorkedNoteModel } from '../../note/index.ts';
import type { Sheet } from '../../text/sheet.ts';
import type { Lines } from '../lines.ts';
import { lineOf } from '../places.ts';
import { wordingInTerms } from '../terms.ts';
import { cautionsOf } from './cautions.ts';
import { type SheetAbout, sheetOf } from './sheet.ts';
import { type SizeAsked, sizeOf } from './size.ts';

/** By its name, or by an offset of the note in its lines or in those of an order that gives it. */
export type WorksheetOf = { readonly name: string } | { readonly offset: number };

export interface WorksheetAsked extends SizeAsked, SheetAbout {}

export type Worksheet =
  /** `errors`: how many stand open in the mixture, what it is made from, and its orders. */
  | { readonly ok: true; readonly sheet: Sheet; readonly errors: number }
  /** `withheld`: the mixture is there and has no results. A clause without a capital letter or a full stop. */
  | { readonly ok: false; readonly withheld: boolean; readonly reason: string };

export function worksheetOf(model: WorkedNoteModel, lines: Lines, of: WorksheetOf, asked: WorksheetAsked): Worksheet {
  const found = 'name' in of ? named(model, lines, of.name) : pointedAt(model, lines, of.offset);
  if ('reason' in found) return { ok: false, withheld: false, reason: found.reason };
  if (!found.contents) return { ok: false, withheld: true, reason: whyWithheld(found, model, lines) };
  const size = sizeOf(asked);
  if (!size.ok) return { ok: false, withheld: false, reason: size.reason };
  const cautions = cautionsOf(found, model, lines);
  return { ok: true, sheet: sheetOf(found, found.contents, model, cautions, size, asked), errors: cautions.errors };
}

type Found = WorkedMixture | { readonly reason: string };

function named({ mixtures }: WorkedNoteModel, lines: Lines, name: string): Found {
  const made = mixtures.filter(({ entity }) => entity.kind === 'mixture');
  const [first, ...others] = made.filter((mixture) => mixture.entity.name?.key === keyOf(name));
  if (!first) {
    const stock = mixtures.some((mixture) => mixture.entity.name?.key === keyOf(name));
    if (stock) return { reason: `‘${name}’ is a stock, known by its label; a worksheet is of a mixture` };
    const near = nearNames(
      keyOf(name),
      made.map((mixture) => mixture.name),
    );
    const proposed = near.length > 0 ? `; did you mean ${near.map((one) => `‘${one}’`).join(' or ')}?` : '';
    return { reason: `the note has no mixture ‘${name}’${proposed}` };
  }
  if (others.length === 0) return first;
  const places = [first, ...others].map(({ entity }) => lineOf(entity, lines) + 1).join(', ');
  return { reason: `‘${name}’ is the name of several mixtures (lines ${places}); which is meant cannot be known` };
}

/** The mixture whose lines hold the cursor; on an order, the one that it gives. */
function pointedAt(model: WorkedNoteModel, lines: Lines, offset: number): Found {
  const { line } = lines.at(offset);
  const block = model.blocks.find(({ span }) => lines.at(span.start).line <= line && line <= lines.at(span.end).line);
  const above = [...model.mixtures, ...model.patients, ...model.orders]
    .filter(({ entity }) => entity.block === block && lineOf(entity, lines) <= line)
    .sort((one, other) => other.entity.header.start - one.entity.header.start)[0];
  const found = above && 'runs' in above ? above.mixture : above && 'steps' in above ? above : null;
  if (found?.entity.kind === 'mixture') return found;
  return { reason: 'there is no mixture at the cursor; put it on a line of one' };
}

function whyWithheld({ name, state, cause }: WorkedMixture, model: WorkedNoteModel, lines: Lines): string {
  const place = cause ?? { start: 0, end: 0 };
  const located = model.faults.find(({ at }) => at.start >= place.start && at.end <= place.end);
  const words = located ? `: ${messageOf(wordingInTerms(findingOf(located).wording, model.policy.terms))}` : '';
  const until = state === 'unsolved' ? 'an amount of it is not solved for' : 'it has no results';
  return `‘${name}’ has no worksheet, since ${until} until line ${lines.at(place.start).line + 1} is mended${words}`;
}
