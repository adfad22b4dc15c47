/** What plasma holds, for setting a liquid beside it. */
import { type Decimal, decimal } from './decimal.ts';
import { PLASMA_DATA } from './reference.ts';

export interface PlasmaIon {
  readonly name: string;
  /** mEq/L. */
  readonly mEq: Decimal;
}

const ionsOf = (data: typeof PLASMA_DATA.cations): readonly PlasmaIon[] =>
  data.map(({ name, value }) => ({ name, mEq: decimal(value) }));

/** Cations and anions, the largest first where they are usually drawn so. Sources in `shared/plasma.json`. */
export const PLASMA = { cations: ionsOf(PLASMA_DATA.cations), anions: ionsOf(PLASMA_DATA.anions) };
