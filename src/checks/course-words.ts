/** Phrases about a predicted course of the serum sodium. */
import { formatDecimal, formatQuantity } from '../engine/index.ts';
import type { FaultOf } from './check.ts';

type CourseFault = FaultOf<'sodium-rise'> | FaultOf<'sodium-fall'>;

/** What is predicted, from where, and when. */
export function predicted({ change, hours, serumSodium, crossed }: CourseFault, direction: 'rise' | 'fall'): string {
  const by = formatQuantity(change.by, 'mmol/L');
  const from = formatQuantity(serumSodium, 'mmol/L');
  const when = `${formatDecimal(change.from)} to ${formatQuantity(change.to, 'h')}`;
  const passed = crossed ? `, and the limit is passed at ${formatQuantity(crossed, 'h')}` : '';
  return `From a serum sodium of ${from} a ${direction} of ${by} within ${formatQuantity(hours, 'h')} is predicted (${when})${passed}.`;
}

/** Behind the limit, where the disorder is said to be acute. */
export function onsetText({ onset }: CourseFault): string {
  return onset === 'acute' ? ' Its onset is acute: faster correction is accepted by some guidance.' : '';
}

/** How far such predictions have missed, and what was counted. */
export function assumed({ losses }: CourseFault): string {
  const urine = losses
    ? 'Only the losses written are counted.'
    : 'No urine is written, so none is counted; a dilute urine raises the sodium.';
  return `Such predictions missed by 4.8 to 6.4 mmol/L over 12 to 30 h. ${urine}`;
}
