/** Recognising numbers with units among the tokens of a line, and naming what keeps one from being read. */
import { findUnit, nearUnits } from '../engine/units.ts';
import type { NotationFault, NumberForm, NumberNode, QuantityNode, Span, ToleranceNode, UnitNode } from './ast.ts';
import type { Token } from './lexer.ts';
import { cover, type Line } from './line.ts';
import { spacedOnce } from './normalise.ts';
import { joined, lookalike, looksJoined, numeralEnd, readNumeral } from './numbers.ts';
import { readRatio } from './ratio.ts';
import { isReserved } from './reserved.ts';

/** What a number token turns out to be. `next` is the index of the token after it. */
export type Figure =
  | { readonly kind: 'quantity'; readonly node: QuantityNode; readonly next: number }
  /** A number without a unit after it. */
  | { readonly kind: 'bare'; readonly number: NumberNode; readonly next: number }
  | { readonly kind: 'fault'; readonly fault: NotationFault };

/**
 * What may follow a number that must have a unit. Where words may, a word that is near no unit is taken for one of
 * them (`2 gastric` lacks a unit); where nothing may, it is taken for the unit (`for 2 fortnights`).
 */
export type Follow = 'nothing' | 'words';

/** Longest run of words that spells a unit: `% of body surface`. */
const LONGEST_UNIT = 4;

/** The number token at `index` with its unit and tolerance, if it has them. */
export function figureAt(line: Line, index: number): Figure {
  const figure = measureAt(line, index);
  if (figure.kind !== 'quantity') return figure;
  const mark = line.tokens[figure.next];
  if (mark?.kind !== 'plus-minus') return figure;

  const start = { start: mark.start, end: mark.end };
  if (line.tokens[figure.next + 1]?.kind !== 'number') {
    return { kind: 'fault', fault: line.syntax('missing-amount', start) };
  }
  const around = measureAt(line, figure.next + 1);
  if (around.kind === 'fault') return around;
  if (around.kind === 'bare') {
    return { kind: 'fault', fault: unitFault(line, around.number.span, around.next, 'words') };
  }
  const { number, unit } = around.node;
  const tolerance: ToleranceNode = { span: cover(start, unit.span), number, unit };
  const span = cover(figure.node.span, unit.span);
  return { kind: 'quantity', node: { ...figure.node, span, tolerance }, next: around.next };
}

/** The number token at `index` with its unit alone. */
function measureAt(line: Line, index: number): Figure {
  const token = line.tokens[index]!;
  const numeral = readNumeral(token.text);
  const numberSpan = { start: token.start, end: token.end };
  if (numeral.kind === 'beyond') {
    const { what, limit } = numeral;
    return { kind: 'fault', fault: { code: 'over-limit', span: numberSpan, what, limit } };
  }
  const ratio = ratioStrength(line, index);
  if (ratio !== null) return { kind: 'fault', fault: ratio };
  const unit = unitAt(line, index + 1);
  const span = unit === null ? numberSpan : cover(numberSpan, unit.node.span);
  if (numeral.kind === 'malformed') {
    const readings = numeral.readings.map((reading) => withUnit(reading, unit?.node));
    return { kind: 'fault', fault: numberForm(line, span, numeral.form, readings) };
  }
  const { value, decimals } = numeral;
  const number: NumberNode = { span: numberSpan, text: line.text(numberSpan), value, decimals };
  const fault =
    unit === null
      ? (splitNumber(line, index, 'likely') ?? runTogether(line, index))
      : (brokenRatio(line, unit.node, unit.next) ?? otherPercent(line, unit.node, unit.next));
  if (fault !== null) return { kind: 'fault', fault };
  if (unit === null) return { kind: 'bare', number, next: index + 1 };
  return {
    kind: 'quantity',
    node: { kind: 'quantity', span, number, unit: unit.node, tolerance: null },
    next: unit.next,
  };
}

/** Among words: the number at `index` as a quantity, a bare number (`type 1`), or a unit misspelt. */
export function figureAmongWords(line: Line, index: number): Figure {
  const figure = figureAt(line, index);
  if (figure.kind !== 'bare') return figure;
  const word = line.tokens[figure.next];
  if (word?.kind !== 'word' || isReserved(word.word)) return figure;
  const near = nearUnits(word.text);
  const meantAsUnit = near.length > 0 || word.text.includes('%') || /.\/./.test(word.text);
  return meantAsUnit ? { kind: 'fault', fault: unknownUnit(line, word, near) } : figure;
}

export function unitAt(line: Line, index: number): { readonly node: UnitNode; readonly next: number } | null {
  const first = line.tokens[index];
  if (first?.kind !== 'word' || isReserved(first.word)) return null;
  const longest = first.text === '%' ? LONGEST_UNIT : 1;
  for (let count = longest; count > 0; count -= 1) {
    const tokens = line.tokens.slice(index, index + count);
    const unit = tokens.length < count ? null : findUnit(tokens.map(({ text }) => text).join(' '));
    if (unit !== null) {
      const span = line.spanOf(index, index + count);
      return { node: { span, text: line.text(span), unit }, next: index + count };
    }
  }
  return null;
}

/** What is wrong with a number whose unit is not one: the word at `next`, or that there is none. */
export function unitFault(line: Line, number: Span, next: number, follow: Follow): NotationFault {
  const word = line.tokens[next];
  if (word?.kind !== 'word' || isReserved(word.word)) return line.syntax('missing-unit', number);
  const near = nearUnits(word.text);
  if (follow === 'nothing' || near.length > 0 || /.\/./.test(word.text) || (word.glued && !/\d/.test(word.text))) {
    return unknownUnit(line, word, near);
  }
  if (!word.glued) return line.syntax('missing-unit', number);
  return numberForm(line, { start: number.start, end: word.end }, 'glued', []);
}

function unknownUnit(line: Line, { start, end }: Token, near: readonly string[]): NotationFault {
  const span = { start, end };
  return { code: 'unknown-unit', span, found: line.text(span), near };
}

/** `20 mmol / L`, `60 mL per hour`: a ratio taken apart, offered put together. */
export function brokenRatio(line: Line, unit: UnitNode, next: number): NotationFault | null {
  const word = line.tokens[next]?.word ?? '';
  if (word !== 'per' && !word.startsWith('/')) return null;
  const below = word === 'per' || word === '/' ? next + 1 : next;
  const under = line.tokens[below]?.text.replace('/', '') ?? '';
  const whole = findUnit(`${unit.text}/${under}`);
  const span = cover(unit.span, line.spanOf(next, whole === null ? next + 1 : below + 1));
  return { code: 'unknown-unit', span, found: line.text(span), near: whole === null ? [] : [whole.symbol] };
}

const PERCENTAGES: Readonly<Record<string, readonly string[]>> = {
  'm/v': ['% w/v'],
  'm/m': ['% w/w'],
  'v/v': [],
  'v/w': [],
};

/** `5 % v/v`: a percentage that says of what it is, and is not one that is known. */
function otherPercent(line: Line, unit: UnitNode, next: number): NotationFault | null {
  const word = line.tokens[next]?.word ?? '';
  if (!unit.unit.percent || unit.text !== '%' || !Object.hasOwn(PERCENTAGES, word)) return null;
  const span = cover(unit.span, line.spanOf(next, next + 1));
  return { code: 'unknown-unit', span, found: line.text(span), near: PERCENTAGES[word]! };
}

/** `1:1000`, `1:10 000`: grams in so many millilitres. */
function ratioStrength(line: Line, index: number): NotationFault | null {
  const { start } = line.tokens[index]!;
  const found = readRatio(line.text({ start, end: line.place.span.end }));
  if (found === null) return null;
  return {
    code: 'ratio-strength',
    span: { start, end: start + found.text.length },
    found: found.text,
    safe: found.safe,
  };
}

/**
 * `1 000 mL`, `2 500 mL`, `1 ½ L`: a number with a space in it, or two numbers. Where a bare number may stand only
 * what looks like one number is taken up (`likely`); where none may, any two are (`certain`).
 */
export function splitNumber(line: Line, index: number, judgement: 'likely' | 'certain'): NotationFault | null {
  const first = line.tokens[index]!;
  let last = line.tokens[index + 1];
  if (last?.kind !== 'number' || last.glued) return null;
  if (judgement === 'likely' && !looksJoined(first.text, last.text)) return null;
  let next = index + 2;
  let whole = joined(first.text, last.text);
  while (whole !== null && line.tokens[next]?.kind === 'number' && looksJoined(whole, line.tokens[next]!.text)) {
    last = line.tokens[next]!;
    whole = joined(whole, last.text);
    next += 1;
  }
  const unit = unitAt(line, next);
  if (judgement === 'likely' && unit === null) return null;
  const span = { start: first.start, end: unit?.node.span.end ?? last.end };
  const second = readNumeral(last.text);
  const readings = whole === null ? [] : [withUnit(whole, unit?.node)];
  if (second.kind === 'number' && !second.value.isZero() && unit !== null && next === index + 2) {
    const alone = withUnit(last.text, unit.node);
    const counts = index === 0 || (index === 1 && line.tokens[0]!.word === 'give');
    const counted = counts && /^[2-9]$|^[1-9]\d$/.test(first.text);
    readings.push(counted ? `${first.text} x ${alone}` : alone);
  }
  return numberForm(line, span, 'space', readings);
}

/** Digits run into what is no unit: letters that look like digits (`10O0 mL`, `1OmL`), a range (`5-10 mL`). */
function runTogether(line: Line, index: number): NotationFault | null {
  const number = line.tokens[index]!;
  const word = line.tokens[index + 1];
  if (word?.kind !== 'word' || !word.glued) return null;
  const after = unitAt(line, index + 2)?.node;
  for (const { numbers, rest } of takenApart(number.text, word.text)) {
    const unit = rest === '' ? after?.text : findUnit(rest) === null ? undefined : rest;
    if (unit === undefined) continue;
    const span = { start: number.start, end: rest === '' ? after!.span.end : word.end };
    const readings = numbers.map((text) => `${text} ${spacedOnce(unit)}`);
    return numberForm(line, span, word.text.startsWith('-') ? 'range' : 'glued', readings);
  }
  return null;
}

/** Ways to take apart a number and what is glued to it: the numbers it may mean, and what is left for a unit. */
function takenApart(number: string, glued: string): { readonly numbers: readonly string[]; readonly rest: string }[] {
  if (/^-\.?\d/.test(glued)) {
    const end = numeralEnd(glued, 1);
    const upper = glued.slice(1, end);
    return readNumeral(upper).kind === 'number' ? [{ numbers: [number, upper], rest: glued.slice(end) }] : [];
  }
  const letters = /^[\d.OolI]{0,40}/.exec(glued)![0].length;
  const lengths = Array.from({ length: letters }, (_, shorter) => letters - shorter);
  return lengths.flatMap((length) => {
    const meant = lookalike(number + glued.slice(0, length));
    return meant === null ? [] : [{ numbers: [meant], rest: glued.slice(length) }];
  });
}

function numberForm(line: Line, span: Span, form: NumberForm, readings: readonly string[]): NotationFault {
  return { code: 'number-form', span, form, found: line.text(span), readings };
}

function withUnit(number: string, unit: UnitNode | undefined): string {
  return unit === undefined ? number : `${number} ${spacedOnce(unit.text)}`;
}
