/** The statement each opening word begins; some words say the same. */
const STATEMENT_WORDS = {
  use: 'use',
  mixture: 'mixture',
  stock: 'stock',
  substance: 'substance',
  patient: 'patient',
  give: 'give',
  gives: 'gives',
  withdraw: 'withdraw',
  discard: 'withdraw',
  exchange: 'exchange',
  claim: 'claim',
  contains: 'claim',
  target: 'target',
  show: 'show',
  ask: 'ask',
  what: 'what-if',
  compare: 'compare',
  accept: 'accept',
} as const;

type StatementWord = keyof typeof STATEMENT_WORDS;
export type StatementKeyword = (typeof STATEMENT_WORDS)[StatementWord];

/** Words that join the parts of a statement; they are words like any other where they join nothing. */
const CONNECTIVES = [
  'to',
  'in',
  'with',
  'as',
  'x',
  'by',
  'via',
  'for',
  'over',
  'from',
  'after',
  'every',
  'monitored',
  'through',
  'within',
  'of',
  'because',
  'and',
  'or',
  'if',
  'at',
  'elemental',
] as const;

/** Words, in lower case, that cannot be names. */
export const RESERVED: readonly string[] = [...Object.keys(STATEMENT_WORDS), ...CONNECTIVES];

const reserved = new Set(RESERVED);

/** `word` in lower case. */
export function isReserved(word: string): boolean {
  return reserved.has(word);
}

/** What a line beginning with `word` (in lower case) is going to be; null when the word says nothing. */
export function statementKeyword(word: string): StatementKeyword | null {
  return Object.hasOwn(STATEMENT_WORDS, word) ? STATEMENT_WORDS[word as StatementWord] : null;
}
