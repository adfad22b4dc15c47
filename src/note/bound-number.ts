/** The number in a link's text, held against the result that the link names. */
import {
  atMost,
  type Decimal,
  effectiveOsmolarity,
  formatDecimal,
  type Observable,
  osmolarity,
  type Tonicity,
} from '../engine/index.ts';
import type { Link, SourceSpan } from '../markdown/note-text.ts';
import type { NumberNode } from '../notation/ast.ts';
import { figuresInText } from '../notation/index.ts';
import type { Subject } from './answer.ts';
import { reportUnmeasured } from './asked-number.ts';
import { BoundBlock } from './bound-block.ts';
import type { LinkSlip } from './bound-faults.ts';
import type { Located } from './faults.ts';
import { halfUnit } from './judge.ts';
import type { BoundNumber } from './model.ts';
import type { Policy } from './policy.ts';
import { type Desk, Reporter, textOf } from './reporter.ts';
import { tonicityOf } from './result-text.ts';

/** `number` is null where there is none; without a fault the result is withheld. */
export interface ReadNumber {
  readonly number: BoundNumber | null;
  readonly faults: readonly Located[];
}

/** What is asked, of what. */
interface Asked {
  readonly link: Link;
  readonly target: string;
  readonly subject: Subject;
  readonly observable: Observable;
}

export function readBoundNumber(asked: Asked, policy: Policy): ReadNumber {
  const { subject, observable } = asked;
  const word = subject.held && tonicityOf(subject.held, observable, policy.reference);
  return word ? tonicityIn(asked, word) : numberIn(asked);
}

function tonicityIn(asked: Asked, found: Tonicity): ReadNumber {
  const { link, observable, subject } = asked;
  const words = [...link.text.text.matchAll(/(?<![\p{L}\p{N}])(?:hypo|iso|hyper)tonic(?![\p{L}\p{N}])/giu)];
  const [word] = words;
  if (!word || words.length > 1) return unbound(asked, words.length, 'hypotonic, isotonic or hypertonic');
  const { 0: written, index } = word;
  const claimed = written.toLowerCase() as Tonicity;
  const capital = /^\p{Lu}/u.test(written);
  const current = capital ? found.charAt(0).toUpperCase() + found.slice(1) : found;
  const span = link.text.toSource({ start: index, end: index + written.length });
  const { contents } = subject.held!;
  const level = observable.kind === 'tonicity-bag' ? osmolarity(contents) : effectiveOsmolarity(contents);
  const outcome = { kind: 'tonicity', claimed, found, osmolarity: level } as const;
  return bound(asked, { at: span, written, outcome, current, edit: { span, text: current } }, claimed === found);
}

function numberIn(asked: Asked): ReadNumber {
  const { link, subject, observable } = asked;
  const { text } = link.text;
  const { quantities, numbers, fault } = figuresInText(text);
  if (fault) return { number: null, faults: [{ at: link.text.toSource(fault.span), fault }] };
  const figures = observable.unit === '' && quantities.length === 0 ? numbers : quantities;
  const [figure] = figures;
  const fits = observable.unit === '' ? 'a number without a unit' : `a number in ${observable.unit}`;
  if (!figure || figures.length > 1) return unbound(asked, figures.length, fits);
  const quantity = 'kind' in figure ? figure : null;
  const number = quantity?.number ?? (figure as NumberNode);
  if (quantity?.tolerance) return unbound(asked, 2, fits);
  const unit = quantity?.unit.unit ?? null;
  const written = quantity ? textOf(quantity) : number.text;
  const measured = subject.answer(observable, unit);
  if (!measured.ok) {
    const desk: Desk = { faults: [], mentions: [] };
    const report = new Reporter(new BoundBlock(text, link.span, (span) => link.text.toSource(span)), desk);
    reportUnmeasured(report, { span: figure.span, text: written }, observable, measured);
    return { number: null, faults: desk.faults };
  }
  const [low, high] = measured.range ?? [measured.value, measured.value];
  const half = halfUnit(number);
  const holds = atMost(low.minus(half), number.value) && atMost(number.value, high.plus(half));
  const current = numberText(measured.value, number);
  return bound(
    asked,
    {
      at: link.text.toSource(figure.span),
      written,
      outcome: {
        kind: 'number',
        claimed: number.value,
        found: measured.value,
        unit,
        range: measured.range,
        holds,
      },
      current: quantity ? `${current} ${quantity.unit.text}` : current,
      edit: { span: link.text.toSource(number.span), text: current },
    },
    holds,
  );
}

type Found = Pick<BoundNumber, 'at' | 'written' | 'outcome' | 'current' | 'edit'>;

function bound({ link, target, subject, observable }: Asked, found: Found, holds: boolean): ReadNumber {
  return { number: { link: link.span, target, subject, observable, ...found, stale: !holds }, faults: [] };
}

function unbound({ link, observable }: Asked, count: number, fits: string): ReadNumber {
  const { text } = link.text;
  const problem = count > 1 ? 'several-bound' : 'nothing-bound';
  const slip: LinkSlip = { problem, found: text, of: observable.name, fits };
  const at: SourceSpan = text === '' ? link.span : link.text.toSource({ start: 0, end: text.length });
  return { number: null, faults: [{ at, fault: { code: 'broken-link', slip } }] };
}

/** To as many digits as are written, and to more where it would come to nothing; with the minus that is written. */
function numberText(found: Decimal, { decimals, text }: NumberNode): string {
  const rounded = decimals === null ? null : found.toDecimalPlaces(decimals);
  const digits = !rounded || rounded.isZero() ? formatDecimal(found) : rounded.toFixed(decimals!);
  return /^[\u2010-\u2013\u2212]/.test(text) ? digits.replace('-', text[0]!) : digits;
}
