/** What `show` and `ask` lines answer, on the card that they stand on; what is asked is folded away with the rest of the card. */
import type { Reference } from '../../engine/index.ts';
import type { WorkedShow } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { answerList } from '../cards/lesson-cards.ts';
import { shownText } from '../results.ts';

export type Card = (besides: readonly Tree[]) => readonly Tree[];

/**
 * The card of an entity with what its lines answer. Below a question nothing of the card is told before it is asked for but its
 * title and what is to be mended or looked at.
 */
export function withShows(shows: readonly WorkedShow[], reference: Reference, card: Card): Card {
  const questions = questionsIn(shows, reference);
  const answers = answersIn(shows, reference);
  if (questions.length === 0) return (remarks) => card([...remarks, ...answers]);
  return (remarks) => {
    const open = remarks.filter(({ kind }) => kind === 'finding');
    const [heading, ...rest] = card([...remarks.filter((remark) => !open.includes(remark)), ...answers]);
    const title: Tree = heading?.kind === 'heading' ? { kind: 'heading', text: heading.text } : heading!;
    return [
      title,
      ...open,
      ...questions,
      { kind: 'folded', title: 'All that was worked out', body: rest, answer: true },
    ];
  };
}

/** Each question, its answer folded away below it. */
export function questionsIn(shows: readonly WorkedShow[], reference: Reference): readonly Tree[] {
  return shows.flatMap((show): Tree[] =>
    show.question === null
      ? []
      : [{ kind: 'folded', title: show.question, body: [answerList(show, reference)], answer: true }],
  );
}

export function answersIn(shows: readonly WorkedShow[], reference: Reference): readonly Tree[] {
  const items = shows
    .filter(({ question }) => question === null)
    .map((show) => plain(`${show.shown[0]!.subject || 'Shown'}: ${shownText(show, reference)}`));
  return items.length > 0 ? [{ kind: 'list', items }] : [];
}
