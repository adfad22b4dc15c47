/** The limits that orders are held against: defaults with their sources, which local policy can change. */
import { type Decimal, decimal } from './decimal.ts';
import { ORDER_LIMIT_DATA, sourceTitle } from './reference.ts';
import { type Unit, unit } from './units.ts';

/** Whose practice a default follows, where countries differ. */
export type Region = 'UK' | 'US';

export interface Limit {
  readonly id: string;
  /** What it limits, for whom: `potassium by a peripheral vein`. */
  readonly title: string;
  readonly value: Decimal;
  readonly unit: Unit;
  /** For showing: the title of its source, or `from memory`. */
  readonly source: string;
  readonly date: string | null;
  /** Where sources disagree: a sentence. */
  readonly disagree: string | null;
  /** Set by local policy. */
  readonly local: boolean;
}

/** Every limit by its id. */
export type Limits = ReadonlyMap<string, Limit>;

export function limitIds(): readonly string[] {
  return ORDER_LIMIT_DATA.map(({ id }) => id);
}

export function defaultLimits(region: Region | null): Limits {
  return new Map(
    ORDER_LIMIT_DATA.map((data) => {
      const { value, unit: symbol, source } = (region && data.regions?.[region]) ?? data;
      const limit: Limit = {
        id: data.id,
        title: data.title,
        value: decimal(value),
        unit: unit(symbol),
        source: sourceTitle(source),
        date: data.date ?? null,
        disagree: data.disagree ?? null,
        local: false,
      };
      return [data.id, limit] as const;
    }),
  );
}
