/** How many bags a worksheet is for, and how large each is. */
import { type Contents, type Decimal, decimal, inUnit, isVolume, ONE, times, unit } from '../../engine/index.ts';
import { parseQuantity } from '../../notation/index.ts';

/** As asked: `6 bags`, `250 mL`; null for one, of the size that is written. */
export interface SizeAsked {
  readonly bags: string | null;
  readonly to: string | null;
}

export interface Size {
  readonly ok: true;
  readonly bags: Decimal;
  /** mL that each bag is scaled to; null for the recipe as written. */
  readonly to: Decimal | null;
}

const BAGS = /^([1-9]\d{0,2})(?: ?(?:bags?|containers?))?$/i;
const MILLILITRE = unit('mL');

export function sizeOf({ bags, to }: SizeAsked): Size | { readonly ok: false; readonly reason: string } {
  const count = bags === null ? null : BAGS.exec(bags.trim());
  if (count === undefined || (bags !== null && count === null)) {
    return { ok: false, reason: `a number of bags from 1 to 999 is wanted, such as 6 bags, not ‘${bags}’` };
  }
  const read = to === null ? null : parseQuantity(to.trim());
  const millilitres = read?.ok && isVolume(read.quantity.unit) ? inUnit(read.quantity, MILLILITRE) : null;
  if (to !== null && !millilitres?.gt(0)) {
    return { ok: false, reason: `a volume above zero is wanted, such as 250 mL, not ‘${to}’` };
  }
  return { ok: true, bags: count ? decimal(count[1] as string) : ONE, to: millilitres };
}

/** One recipe brought to another final volume: every amount by the same factor. */
export class Scale {
  /** `to`: mL; null for the recipe as written. */
  constructor(
    private readonly written: Decimal,
    to: Decimal | null,
  ) {
    this.to = to ?? written;
  }

  /** mL. */
  readonly to: Decimal;

  get changes(): boolean {
    return !this.to.eq(this.written);
  }

  /** Multiplied before it is divided, so that what comes out even stays exact. */
  amount(written: Decimal): Decimal {
    return this.changes ? written.times(this.to).div(this.written) : written;
  }

  contents(written: Contents): Contents {
    return this.changes
      ? { ...times(written, this.to.div(this.written)), volume: this.amount(written.volume) }
      : written;
  }
}
