/** Results at the end of a line: a mixture's in one sentence, and what `show` asks for. */
import { findObservable, type Reference } from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Entity, WorkedMixture, WorkedNoteModel, WorkedOrder, WorkedShow } from '../note/index.ts';
import { shortVerdict } from './cards/composition.ts';
import { resultText, shownValues } from './cards/results-text.ts';
import { measuredText, solvedText } from './cards/solved.ts';
import type { Lines } from './lines.ts';
import { orderResult } from './orders.ts';
import type { InlineResult } from './types.ts';

const FIRST = ['volume', 'sodium'].map((key) => findObservable(key)!);

export function resultsOf(model: WorkedNoteModel, lines: Lines, within: SourceSpan): readonly InlineResult[] {
  const { reference } = model.policy;
  const results: InlineResult[] = [];
  const asked = askedAbout(model);
  for (const mixture of model.mixtures) {
    const { start, end } = mixture.entity.block.toSource(mixture.entity.header);
    if (end < within.start || start > within.end) continue;
    const sentence = asked.has(mixture.entity)
      ? FOLDED
      : told(mixture, reference, () => mixtureSentence(mixture, lines, reference));
    results.push({ offset: end, text: sentence, tooltip: null });
    if (asked.has(mixture.entity)) continue;
    for (const solved of mixture.solved) {
      const { end: offset } = mixture.entity.block.toSource(solved.span);
      results.push({ offset, text: `= ${solvedText(solved)}`, tooltip: measuredText(solved) });
    }
  }
  for (const order of model.orders) {
    const { start, end } = order.entity.block.toSource(order.entity.header);
    if (end < within.start || start > within.end) continue;
    results.push({
      offset: end,
      text: asked.has(order.entity) ? FOLDED : told(order, reference, () => orderResult(order, lines)),
      tooltip: null,
    });
  }
  for (const show of model.shows) {
    const { start, end } = show.block.toSource(show.span);
    if (end < within.start || start > within.end) continue;
    const answer = told(show, reference, () => shownText(show, reference));
    if (show.question === null) results.push({ offset: end, text: `= ${answer}`, tooltip: null });
    else results.push({ offset: end, text: 'answer folded away', tooltip: answer });
  }
  return results.sort((a, b) => a.offset - b.offset);
}

interface Told {
  readonly reference: Reference;
  readonly text: string;
}

const TOLD = new WeakMap<object, Told>();

/** What is worked out stays the same object while the note is edited elsewhere. What is withheld names a line, which may not. */
function told(of: WorkedMixture | WorkedOrder | WorkedShow, reference: Reference, tell: () => string): string {
  if ('contents' in of && !of.contents) return tell();
  const known = TOLD.get(of);
  if (known?.reference === reference) return known.text;
  const text = tell();
  TOLD.set(of, { reference, text });
  return text;
}

/** At the end of a header below which a question is asked. */
const FOLDED = 'results folded away: asked below';

/** What lessons ask about: its results are not told before a reader asks for them. */
function askedAbout({ shows }: WorkedNoteModel): ReadonlySet<Entity> {
  return new Set(shows.flatMap(({ question, open }) => (question !== null && open ? [open] : [])));
}

/** `= 1010 mL, sodium 152 mmol/L, isotonic`; without results, the line that stands in the way. */
export function mixtureSentence(mixture: WorkedMixture, lines: Lines, reference: Reference): string {
  const { contents, cause } = mixture;
  if (!contents) {
    return mixture.state === 'unsolved'
      ? 'no results: an amount is still to be solved for'
      : `no results until line ${lines.at(cause?.start ?? 0).line + 1} is mended`;
  }
  const held = { contents, extremes: mixture.extremes };
  const [volume, sodium] = FIRST.map((observable) => resultText(held, observable, reference));
  return `= ${volume}, sodium ${sodium}, ${shortVerdict(contents, reference)}`;
}

/** One result by itself, several each with its name. */
export function shownText(show: WorkedShow, reference: Reference): string {
  const texts = shownValues(show, reference);
  return texts.length === 1 ? texts[0]!.value : texts.map(({ name, value }) => `${name} ${value}`).join(', ');
}
