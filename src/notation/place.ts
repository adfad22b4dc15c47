/** What may stand where a line breaks off, by shape alone: for completion. Total; looks nothing up but units. */
import { isStrength } from '../engine/units.ts';
import type { Span, UnitNode } from './ast.ts';
import { figureAmongWords, unitAt } from './figure.ts';
import { amountAt, atByVolume, makeUpWords } from './fluid.ts';
import { clauseAt, SET_WORDS } from './give.ts';
import type { Token } from './lexer.ts';
import type { Measured, Place } from './place-kinds.ts';
import { PlaceReader } from './place-reader.ts';
import { statementKeyword } from './reserved.ts';
import { unfinishedAt } from './unfinished.ts';

const CLAUSE_WORDS = ['at', 'for', 'over', 'every', 'by', 'to', 'from', 'after', 'monitored', 'through', 'as'];
/** Words that say nothing of the solute which comes after them. */
const BEFORE_WORDS = new Set(['of', 'solution', 'elemental']);

/** What may stand at an offset of a block's text. Empty in remarks, titles, the middle of numbers, and new names. */
export function placesAt(text: string, offset: number): readonly Place[] {
  const unfinished = unfinishedAt(text, offset);
  return unfinished === null ? [] : new PlaceFinder(text, unfinished).places();
}

type Where = Extract<Place, { kind: 'fluid' }>['in'];

class PlaceFinder extends PlaceReader {
  places(): readonly Place[] {
    const [first, second] = this.tokens;
    if (!first) return [{ kind: 'line', phrase: this.word }];
    if (first.word === 'add' && (second?.kind === 'number' || second?.kind === 'question')) this.at = 1;
    if (this.kind() === 'number' || this.kind() === 'question') return this.step();
    const keyword = statementKeyword(first.word);
    if (keyword === null) return first.word === '' ? [] : this.wordsFirst();
    this.at = 1;
    switch (keyword) {
      case 'withdraw':
        return this.number({ of: 'volume' }) ?? [];
      case 'exchange':
        return this.exchange();
      case 'give':
        return this.order();
      case 'gives':
        return this.kind(this.tokens.length - 1) === 'number'
          ? []
          : [{ kind: 'ion', phrase: this.from(this.afterLast(isComma)) }];
      case 'claim':
      case 'target':
        return this.claim(keyword);
      case 'show':
        return this.shown();
      case 'ask':
        return this.question();
      case 'what-if':
        return this.otherwise();
      case 'compare':
        return this.compared();
      case 'accept':
        return this.accepted();
      default:
        return [];
    }
  }

  private step(): readonly Place[] {
    if (this.kind(this.at + 1) === 'times') {
      this.at += 2;
      if (this.kind() !== 'number') return this.liquid('step', true);
    }
    const alone = this.at + 1 === this.tokens.length;
    const strength = this.strengthHere();
    if (strength) return this.liquid('step', false);
    const from = this.at;
    const open = this.number({ of: 'amount' });
    if (open) return alone && this.at === from && from === 0 ? [...open, this.joint('x')] : open;
    return this.fluid('step', unitAt(this.line, from + 1)?.node ?? null, false);
  }

  private strengthHere(): boolean {
    return this.kind() === 'number' && amountAt(this.line, this.at) === null && this.isQuantity();
  }

  private isQuantity(): boolean {
    return figureAmongWords(this.line, this.at).kind === 'quantity';
  }

  private liquid(where: Where, counted: boolean): readonly Place[] {
    return this.fluid(where, null, counted);
  }

  private exchange(): readonly Place[] {
    const open = this.number({ of: 'volume' });
    if (open) return open;
    if (this.done) return [this.joint('for')];
    return this.line.tokens[this.at]!.word === 'for' && ++this.at ? this.fluid('step', null, false, true) : [];
  }

  /**
   * Parts of a fluid up to the end of what is written, or what follows a fluid: a final volume, the volume that a solute
   * is put into.
   */
  private fluid(where: Where, amount: UnitNode | null, counted: boolean, vehicle = false): readonly Place[] {
    const part = this.parts(where);
    if (part === null) return this.afterFluid();
    const { from, named, strong, dissolved, ion } = part;
    if (strong) return [this.joint(...this.joints(where, false))];
    if (this.kind(this.tokens.length - 1) === 'number') return this.unit({ of: 'strength' });
    const phrase = this.from(from);
    if (ion !== null) return [{ kind: 'carrier', phrase, ion }];
    const fluid: Place = { kind: 'fluid', phrase, in: where, amount, counted, vehicle: vehicle || dissolved };
    return named ? [fluid, this.joint(...this.joints(where, true))] : [fluid];
  }

  private joints(where: Where, carries: boolean): readonly string[] {
    if (where === 'order') return ['in', 'with', ...CLAUSE_WORDS];
    if (where === 'comparison') return ['in', 'with', 'and', 'by'];
    return carries ? ['in', 'with', 'to', 'as'] : ['in', 'with', 'to'];
  }

  /** The last part, when what is written ends in it; null when the fluid ends before, at the cursor. */
  private parts(where: Where): {
    from: number;
    named: boolean;
    strong: boolean;
    dissolved: boolean;
    ion: string | null;
  } | null {
    const part = { from: this.at, named: false, strong: false, dissolved: false, ion: null as string | null };
    for (; !this.done; this.at += 1) {
      const { kind, word } = this.tokens[this.at]!;
      if (kind === 'number') {
        if (amountAt(this.line, this.at)) return null;
        const figure = figureAmongWords(this.line, this.at);
        if (figure.kind !== 'quantity') continue;
        this.at = figure.next - 1;
        if (part.named) part.strong = true;
        else part.from = figure.next;
      } else if (word === '' || this.ends(where)) return null;
      else if (word === 'in' || word === 'with') {
        const next = this.at + 1;
        if (word === 'in' && this.kind(next) === 'number' && !this.isStrengthAt(next)) return null;
        Object.assign(part, { from: next, named: false, strong: false, dissolved: true, ion: null });
      } else if (word === 'as' && where !== 'order' && part.named) {
        const words = this.line.words(part.from, this.at);
        Object.assign(part, { from: this.at + 1, named: false, strong: false, ion: words.key });
      } else if (!part.named && BEFORE_WORDS.has(word)) part.from = this.at + 1;
      else part.named = true;
    }
    return part;
  }

  private isStrengthAt(index: number): boolean {
    const unit = unitAt(this.line, index + 1);
    return unit !== null && isStrength(unit.node.unit);
  }

  private ends(where: Where): boolean {
    switch (where) {
      case 'step':
        return makeUpWords(this.line, this.at) > 0 || this.nowByVolume();
      case 'order':
        return this.tokens[this.at]!.word === 'at' || this.clause() !== null;
      case 'comparison':
        return this.tokens[this.at]!.word === 'and';
    }
  }

  private nowByVolume(): boolean {
    this.line.at = this.at;
    return atByVolume(this.line);
  }

  private clause(): ReturnType<typeof clauseAt> {
    this.line.at = this.at;
    return clauseAt(this.line);
  }

  private afterFluid(): readonly Place[] {
    const words = makeUpWords(this.line, this.at);
    if (words > 0) {
      this.at += words;
      return this.number({ of: 'volume' }) ?? [];
    }
    if (this.tokens[this.at]?.word !== 'in') return [];
    this.at += 1;
    return this.number({ of: 'volume' }) ?? this.fluid('step', null, false, true);
  }

  private order(): readonly Place[] {
    if (this.kind(this.at + 1) === 'times') this.at += 2;
    const counted = this.at > 1;
    let amount: UnitNode | null = null;
    if (this.kind() === 'number' && !this.strengthHere()) {
      amount = unitAt(this.line, this.at + 1)?.node ?? null;
      const open = this.number({ of: 'order' });
      if (open) return open;
    }
    const before = this.at;
    const part = this.parts('order');
    if (part !== null) {
      this.at = before;
      return this.fluid('order', amount, counted && amount === null);
    }
    while (!this.done) {
      const open = this.clauseOrDose();
      if (open) return open;
    }
    return [this.joint(...CLAUSE_WORDS.filter((word) => !this.tokens.some((token) => token.word === word)))];
  }

  /** Goes past a clause or a dose; the places of what it lacks, or null. */
  private clauseOrDose(): readonly Place[] | null {
    if (this.kind() === 'number') return this.number({ of: 'order' });
    const { word } = this.tokens[this.at]!;
    const kind = word === 'at' || word === 'of' ? word : this.clause();
    this.at += 1;
    switch (kind) {
      case 'at':
        return this.number({ of: 'rate' });
      case 'duration':
      case 'from':
      case 'every':
        return this.number({ of: 'time' });
      case 'set':
        while (SET_WORDS.has(this.tokens[this.at]?.word ?? '')) this.at += 1;
        return this.done ? [{ kind: 'set', phrase: this.word }] : this.drops();
      case 'patient':
      case 'after':
        return this.phrase({ kind: 'name', of: kind === 'after' ? 'give' : 'patient' });
      case 'route':
        return this.phrase({ kind: 'route' });
      case 'of':
        return this.phrase({ kind: 'solute' });
      case 'monitored':
        return null;
      case 'name':
        if (this.done) return [];
        this.at += 1;
        return null;
      default:
        return [];
    }
  }

  private drops(): readonly Place[] | null {
    const open = this.number({ of: 'drops' });
    if (open === null && this.tokens[this.at]?.word === 'set') this.at += 1;
    return open;
  }

  /** Goes past words up to the next clause. */
  private phrase(
    place: { kind: 'name'; of: 'patient' | 'give' } | { kind: 'route' | 'solute' },
  ): readonly Place[] | null {
    const from = this.at;
    while (!this.done && this.tokens[this.at]!.word !== '' && !this.ends('order')) this.at += 1;
    if (!this.done) return null;
    const whole = { ...place, phrase: this.from(from) };
    return this.at === from ? [whole] : [whole, this.joint(...CLAUSE_WORDS)];
  }

  private claim(by: 'claim' | 'target'): readonly Place[] {
    const within = this.tokens.findIndex(({ word, kind }) => word === 'within' || kind === 'plus-minus');
    if (within > 0) {
      this.at = within;
      return this.tolerance(this.tokens[within - 1]!.text) ?? [];
    }
    const last = this.tokens.length - 1;
    if (this.kind(last) === 'number' && last > 1) {
      return this.unit({ of: 'asked', words: { start: this.tokens[1]!.start, end: this.tokens[last - 1]!.end } });
    }
    const { place, strong } = this.asked(by, 1);
    return strong && by === 'claim' ? [place, this.joint('within')] : [place];
  }

  /** `begin`: the token with which what is asked for begins. */
  private shown(begin = 1): readonly Place[] {
    const last = this.afterLast(({ kind, word }) => kind === 'comma' || word === 'and');
    return [this.asked('show', Math.max(last, begin), begin).place];
  }

  private question(): readonly Place[] {
    if (this.tokens.length === 1) return [this.joint('""')];
    if (this.kind(1) !== 'string') return [];
    if (this.tokens.length === 2) return [this.joint('show')];
    return this.tokens[2]!.word === 'show' ? this.shown(3) : [];
  }

  private otherwise(): readonly Place[] {
    if (this.tokens.length === 1) return [this.joint('if')];
    if (this.tokens[1]!.word !== 'if') return [];
    const show = this.tokens.findIndex(({ word }) => word === 'show');
    if (show > 0) return this.shown(show + 1);
    const number = this.tokens.findIndex(({ kind }) => kind === 'number');
    if (number < 0) return [{ kind: 'figure', phrase: this.from(2) }];
    if (number === 2) return [];
    this.at = this.tokens.findLastIndex(({ kind }) => kind === 'number');
    const measured: Measured = { of: 'figure', words: this.line.words(2, number) };
    const open = this.number(measured);
    if (open) return open;
    return this.done ? [this.joint('show', 'or')] : [];
  }

  /** The question whose first token is `start`: its words behind the last strength in it. */
  private asked(by: 'claim' | 'target' | 'show', start: number, begin = 1): { place: Place; strong: boolean } {
    let from = start;
    for (let index = start; index < this.tokens.length; index += 1) {
      const unit = this.kind(index) === 'number' ? unitAt(this.line, index + 1) : null;
      if (unit) from = unit.next;
    }
    const before = from > start ? this.line.spanOf(start, from) : null;
    const first = start > begin ? this.firstQuestion(start - 1, begin) : null;
    return { place: { kind: 'asked', phrase: this.from(from), by, before, first }, strong: from > start };
  }

  private firstQuestion(end: number, begin: number): Span | null {
    const ends = ({ kind, word }: Token, index: number) => index >= begin && (kind === 'comma' || word === 'and');
    const to = this.tokens.findIndex(ends);
    return to > begin && to <= end ? this.line.spanOf(begin, to) : null;
  }

  private compared(): readonly Place[] {
    const by = this.tokens.findIndex(({ word }) => word === 'by');
    const from = this.afterLast(({ kind, word }) => kind === 'comma' || word === 'and' || word === 'by');
    if (by > 0) return [{ kind: 'asked', phrase: this.from(from), by: 'compare', before: null, first: null }];
    this.at = from;
    return this.fluid('comparison', null, false, true);
  }

  private accepted(): readonly Place[] {
    if (this.tokens.length === 1) return [{ kind: 'code', phrase: this.word }];
    return this.tokens.some(({ word }) => word === 'because') ? [] : [this.joint('because ""')];
  }

  /** `water to 1 L`, `weight 70 kg`, `loss stomach 60 mL/h sodium 60 mmol/L`. */
  private wordsFirst(): readonly Place[] {
    const last = this.tokens.length - 1;
    const makeUp = this.tokens.findIndex((_, index) => makeUpWords(this.line, index) > 0);
    if (makeUp > 0) {
      this.at = makeUp + makeUpWords(this.line, makeUp);
      return this.number({ of: 'volume' }) ?? [];
    }
    const numbers = this.tokens.flatMap(({ kind }, index) => (kind === 'number' ? [index] : []));
    const number = numbers.at(-1);
    if (number === undefined) {
      return [
        { kind: 'line', phrase: this.from(0) },
        { kind: 'make-up', phrase: this.word },
      ];
    }
    const first = this.words(0, numbers[0]!);
    if (number === last) {
      const earlier = numbers.at(-2);
      const from = earlier === undefined ? 0 : (unitAt(this.line, earlier + 1)?.next ?? number);
      return this.unit({ of: 'line', words: this.words(from, number), first });
    }
    this.at = number;
    if (this.number({ of: 'strength' })) return [];
    return [{ kind: 'ion', phrase: this.from(this.at) }];
  }

  private words(from: number, to: number): string {
    return to > from ? this.line.words(from, to).key : '';
  }
}

function isComma({ kind }: Token): boolean {
  return kind === 'comma';
}
