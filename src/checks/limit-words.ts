/** Phrases that the checks of orders share: a number against its limit. */
import { formatQuantity, type Limit } from '../engine/index.ts';
import type { Held, Unsaid } from '../note/order-faults.ts';
import { both } from './wording.ts';

/** `40 mmol/L`. */
export function limitText({ value, unit }: Limit): string {
  return formatQuantity(value, unit.symbol);
}

/** What was found, in the unit of its limit: `200 mmol/L`. */
export function foundText({ found, limit }: Held): string {
  return formatQuantity(found, limit.unit.symbol);
}

/** ` of 2 orders together (…)` where several fluids run at the same time, else nothing. */
export function togetherText(fluids: readonly string[]): string {
  return fluids.length > 1 ? `, of ${fluids.length} orders together (${both([...new Set(fluids)])})` : '';
}

/** `The limit taken for potassium by a peripheral vein is 40 mmol/L.`, who sets it, what is not written, who disagrees. */
export function limitSentences({ limit, unsaid }: Held): string {
  const local = limit.local ? ', set by local policy' : '';
  return asideOf(`The limit taken for ${limit.title} is ${limitText(limit)}${local}.`, { limit, unsaid });
}

/** A sentence with what is not written and who disagrees behind it. */
export function asideOf(sentence: string, { limit, unsaid }: Pick<Held, 'limit' | 'unsaid'>): string {
  return [sentence, ...unsaid.map((what) => UNSAID[what]), ...(limit.disagree ? [limit.disagree] : [])].join(' ');
}

const UNSAID: Readonly<Record<Unsaid, string>> = {
  age: 'No age is written, so the limits of every age were tried.',
  route: 'No route is written, so a vein was taken, a peripheral one where that matters.',
  'which-vein': 'Which vein it is stands nowhere, so a peripheral one was taken.',
};
