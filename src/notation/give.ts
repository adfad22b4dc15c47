/** Orders: `give gastric at 60 mL/h for 16 h by peripheral vein to adult as replacement`. */
import { isRate } from '../engine/units.ts';
import type { Clause, GiveNode, QuantityNode, Words } from './ast.ts';
import { figureAmongWords } from './figure.ts';
import { amountAt, readFluid, type Setting } from './fluid.ts';
import { cover, type Line } from './line.ts';
import { nameRun, readName } from './names.ts';
import { atCount, readAmount, readCount } from './quantity.ts';

/** The clause each word begins; `from` and `after` both say when it starts. */
const CLAUSES: Readonly<Record<string, Clause['kind']>> = {
  for: 'duration',
  over: 'duration',
  by: 'route',
  via: 'route',
  to: 'patient',
  from: 'from',
  after: 'after',
  every: 'every',
  monitored: 'monitored',
  through: 'set',
  as: 'name',
};

/** Between `through` and the drops of a set. */
export const SET_WORDS: ReadonlySet<string> = new Set(['a', 'set', 'of']);

const ORDERED: Setting = { ends: (line) => line.word() === 'at' || clauseAt(line) !== null, as: false };

/** `for` begins a clause unless a word follows: `water for injections`. */
export function clauseAt(line: Line): Clause['kind'] | null {
  const word = line.word();
  if (!Object.hasOwn(CLAUSES, word)) return null;
  return word === 'for' && line.word(1) !== '' ? null : CLAUSES[word]!;
}

/** What an order has gathered so far. */
interface Gathered {
  amount: QuantityNode | null;
  rate: QuantityNode | null;
  of: Words | null;
  readonly clauses: Clause[];
}

/** `give`; after the first word. */
export function readGive(line: Line): GiveNode | null {
  const keyword = line.last();
  const gathered: Gathered = { amount: null, rate: null, of: null, clauses: [] };
  const count = atCount(line) ? readCount(line) : null;
  if (line.fault !== null) return null;
  if (line.peek()?.kind === 'number' && !beginsFluid(line) && !readDose(line, gathered)) return null;
  const before = (gathered.amount ?? gathered.rate ?? count)?.span ?? keyword;
  const fluid = readFluid(line, ORDERED, before);
  if (fluid === null) return null;

  while (!line.done) {
    const dose = line.eat('at') || amountAt(line, line.at) !== null;
    if (dose ? !readDoseOf(line, gathered) : !readClause(line, gathered)) return null;
  }
  const { amount, rate, of: rateOf, clauses } = gathered;
  return { kind: 'give', count, amount, fluid, rate, rateOf, clauses, ...line.place };
}

/** A strength, or a bare number that a word which is no unit follows (`give 0.45 NS`). */
function beginsFluid(line: Line): boolean {
  const figure = figureAmongWords(line, line.at);
  if (figure.kind === 'quantity') return amountAt(line, line.at) === null;
  return figure.kind === 'bare' && figure.number.decimals !== 0 && line.tokens[figure.next]?.kind === 'word';
}

/** A quantity: per time it is the rate, otherwise the amount. */
function readDose(line: Line, gathered: Gathered): boolean {
  const quantity = readAmount(line, 'words');
  if (quantity === null) return false;
  const place = isRate(quantity.unit.unit) ? 'rate' : 'amount';
  if (gathered[place] !== null) {
    line.fail('two-amounts', quantity.span);
    return false;
  }
  gathered[place] = quantity;
  return true;
}

/** After the fluid a dose may say what it counts: `1 g/h of magnesium sulfate`. */
function readDoseOf(line: Line, gathered: Gathered): boolean {
  if (line.done) {
    line.fail('missing-amount', line.last());
    return false;
  }
  if (!readDose(line, gathered)) return false;
  if (!line.eat('of')) return true;
  const of = line.last();
  if (gathered.of !== null) {
    line.fail('repeated-clause', of);
    return false;
  }
  gathered.of = readPhrase(line);
  if (gathered.of === null) line.fail('missing-fluid', of);
  return gathered.of !== null;
}

function readClause(line: Line, gathered: Gathered): boolean {
  const kind = clauseAt(line);
  const keyword = line.here();
  if (kind === null) {
    line.fail('bad-clause', keyword);
    return false;
  }
  if (gathered.clauses.some((clause) => start(clause.kind) === start(kind))) {
    line.fail('repeated-clause', keyword);
    return false;
  }
  line.at += 1;
  const clause = readRestOfClause(line, kind);
  if (clause !== null) gathered.clauses.push(clause);
  return clause !== null;
}

/** An order starts `from` a time or `after` another order, not both. */
function start(kind: Clause['kind']): string {
  return kind === 'after' ? 'from' : kind;
}

/** After the clause's first word. */
function readRestOfClause(line: Line, kind: Clause['kind']): Clause | null {
  const keyword = line.last();
  switch (kind) {
    case 'monitored':
      return { kind, span: keyword };
    case 'duration':
    case 'from':
    case 'every': {
      const time = line.done ? line.fail('missing-amount', keyword) : readAmount(line, 'nothing');
      return time === null ? null : { kind, span: cover(keyword, time.span), time };
    }
    case 'set': {
      while (SET_WORDS.has(line.word())) line.at += 1;
      const drops = line.done ? line.fail('missing-amount', keyword) : readAmount(line, 'words');
      if (drops === null) return null;
      line.eat('set');
      return { kind, span: cover(keyword, line.last()), drops };
    }
    case 'route': {
      const route = readPhrase(line);
      if (route === null) return line.fail('missing-name', keyword);
      return { kind, span: cover(keyword, route.span), route };
    }
    case 'patient':
    case 'after':
    case 'name': {
      const name = readName(line, keyword);
      return name === null ? null : { kind, span: cover(keyword, name.span), name };
    }
  }
}

/** Words up to the next clause or dose; null when there are none. */
function readPhrase(line: Line): Words | null {
  const from = line.at;
  while (line.word() !== '' && !ORDERED.ends(line)) line.at += 1;
  return line.at === from ? null : line.words(from, line.at);
}

/** The name of an order that could not be read: what follows its last `as`. */
export function orderName(line: Line): Words | null {
  const as = line.tokens.findLastIndex(({ word }) => word === 'as');
  if (as < 0) return null;
  line.at = as + 1;
  return nameRun(line);
}
