/** How much, how fast and how long: any two fix the third. Volumes in mL, rates in mL/h, times in h. */
import { atMost, type Decimal, Decimal as Decimals, decimal, ONE, ZERO } from '../../engine/index.ts';

export interface Figures {
  readonly volume: Decimal | null;
  readonly rate: Decimal | null;
  readonly duration: Decimal | null;
}

/** How far a rate and a time may be rounded: half a unit of the last place written; null for what is not written. */
export type Margins = Pick<Figures, 'rate' | 'duration'>;

export type Resolved =
  | { readonly ok: true; readonly figures: Figures & { readonly volume: Decimal } }
  | { readonly ok: true; readonly figures: Figures & { readonly volume: null; readonly rate: Decimal } }
  /** All three are written and do not fit together. */
  | { readonly ok: false; readonly why: 'mismatch'; readonly figures: { [K in keyof Figures]-?: Decimal } }
  /** Neither how much nor how fast. */
  | { readonly ok: false; readonly why: 'nothing' };

/** So far may three figures lie apart however they are written, in percent (common practice, no source). */
const CLOSE_PERCENT = decimal(1);
/** A time is rounded no more than this, in percent of it: ‘over 1 h’ is not anything up to an hour and a half. */
const TIME_PERCENT = decimal(5);
const HUNDRED = decimal(100);

/**
 * `whole`: mL of one recipe, which stands for an amount that is not written. Rates and times are above zero.
 */
export function resolve({ volume, rate, duration }: Figures, margins: Margins, whole: Decimal | null): Resolved {
  if (volume && rate && duration) {
    const figures = { volume, rate, duration };
    return agree(figures, margins) ? { ok: true, figures } : { ok: false, why: 'mismatch', figures };
  }
  if (rate && duration) return { ok: true, figures: { volume: rate.times(duration), rate, duration } };
  const given = volume ?? whole;
  if (given && rate) return { ok: true, figures: { volume: given, rate, duration: given.div(rate) } };
  if (given && duration) return { ok: true, figures: { volume: given, rate: given.div(duration), duration } };
  if (given) return { ok: true, figures: { volume: given, rate: null, duration: null } };
  if (rate) return { ok: true, figures: { volume: null, rate, duration: null } };
  return { ok: false, why: 'nothing' };
}

/** Whether one of the three, worked out from the other two, rounds to what is written. */
function agree(
  { volume, rate, duration }: { readonly volume: Decimal; readonly rate: Decimal; readonly duration: Decimal },
  margins: Margins,
): boolean {
  const apart = rate.times(duration).div(volume).minus(ONE).abs().times(HUNDRED);
  const inTime = Decimals.min(margins.duration ?? ZERO, duration.times(TIME_PERCENT).div(HUNDRED));
  return (
    atMost(apart, CLOSE_PERCENT) ||
    atMost(volume.div(duration).minus(rate).abs(), margins.rate ?? ZERO) ||
    atMost(volume.div(rate).minus(duration).abs(), inTime)
  );
}
