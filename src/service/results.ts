/** Results at the end of a line: a mixture's in one sentence, and what `show` asks for. */
import { findObservable, type Reference } from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { WorkedMixture, WorkedNoteModel, WorkedShow } from '../note/index.ts';
import { shortVerdict } from './cards/composition.ts';
import { answerText, resultText } from './cards/results-text.ts';
import { measuredText, solvedText } from './cards/solved.ts';
import type { Lines } from './lines.ts';
import { orderResult } from './orders.ts';
import type { InlineResult } from './types.ts';

const FIRST = ['volume', 'sodium'].map((key) => findObservable(key)!);

export function resultsOf(model: WorkedNoteModel, lines: Lines, within: SourceSpan): readonly InlineResult[] {
  const { reference } = model.policy;
  const results: InlineResult[] = [];
  for (const mixture of model.mixtures) {
    const { start, end } = mixture.entity.block.toSource(mixture.entity.header);
    if (end < within.start || start > within.end) continue;
    results.push({ offset: end, text: mixtureSentence(mixture, lines, reference), tooltip: null });
    for (const solved of mixture.solved) {
      const { end: offset } = mixture.entity.block.toSource(solved.span);
      results.push({ offset, text: `= ${solvedText(solved)}`, tooltip: measuredText(solved) });
    }
  }
  for (const order of model.orders) {
    const { start, end } = order.entity.block.toSource(order.entity.header);
    if (end < within.start || start > within.end) continue;
    results.push({ offset: end, text: orderResult(order, lines), tooltip: null });
  }
  for (const show of model.shows) {
    const { start, end } = show.block.toSource(show.span);
    if (end < within.start || start > within.end) continue;
    results.push({ offset: end, text: `= ${shownText(show, reference)}`, tooltip: null });
  }
  return results.sort((a, b) => a.offset - b.offset);
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
  const texts = show.shown.map((shown) => ({
    name: shown.observable.name,
    value: shown.held
      ? resultText(shown.held, shown.observable, reference)
      : answerText(shown.answer, shown.observable, shown.unit),
  }));
  return texts.length === 1 ? texts[0]!.value : texts.map(({ name, value }) => `${name} ${value}`).join(', ');
}
