/** Cards of what a lesson asks: a question with its answer, and results under other figures. */
import type { Reference } from '../../engine/index.ts';
import type { WhatIf, WorkedShow } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { whatIfFigure } from '../figures/what-if.ts';
import { CAUTION } from './caution.ts';
import { shownItems } from './results-text.ts';
import { whatIfTrees } from './what-if-card.ts';

/** Whoever points at a question asks for its answer. */
export function askedCard(show: WorkedShow, reference: Reference): readonly Tree[] {
  return [{ kind: 'heading', text: show.question ?? '' }, answerList(show, reference), CAUTION];
}

export function answerList(show: WorkedShow, reference: Reference): Tree {
  return { kind: 'list', items: shownItems(show, reference).map(plain) };
}

export function whatIfCard(whatIf: WhatIf, reference: Reference): readonly Tree[] {
  return [{ kind: 'heading', text: 'What if' }, ...whatIfTrees(whatIf, reference), ...whatIfFigure(whatIf), CAUTION];
}
