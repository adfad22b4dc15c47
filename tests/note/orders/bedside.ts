/** Notes with patients and orders, worked out for tests. */
import { DEFAULT_REFERENCE, type Decimal } from '../../../src/engine/index.ts';
import { readNote } from '../../../src/markdown/index.ts';
import { type WorkedNoteModel, type WorkedOrder, workNote } from '../../../src/note/index.ts';
import { shownText } from '../../../src/service/results.ts';
import { fenced } from '../../annotated.ts';

export function worked(block: string): WorkedNoteModel {
  return workNote(readNote(fenced(block)));
}

/** Faults of reading and working out as `code: text at fault`; what stands out in a complete order is left out. */
export function faultsIn(block: string): readonly string[] {
  const { source, faults } = worked(block);
  return faults
    .filter(({ fault }) => !STANDING_OUT.has(fault.code))
    .map(({ at, fault }) => `${fault.code}: ${source.slice(at.start, at.end)}`);
}

const STANDING_OUT: ReadonlySet<string> = new Set([
  'undiluted-concentrate',
  'haemolysis',
  'hypertonic-peripheral',
  'potassium-concentration',
  'potassium-rate',
  'potassium-while-high',
  'hypotonic-to-low-sodium',
  'glucose-rate',
  'hypotonic-maintenance',
  'sodium-chloride-load',
  'calcium-ceftriaxone',
  'electrolyte-rate',
  'sodium-rise',
  'sodium-fall',
  'tonicity-falls-in-body',
  'volume-added',
]);

/** The last order of a block, or the one of that name. */
export function orderIn(block: string, name?: string): WorkedOrder {
  const { orders } = worked(block);
  const found = name === undefined ? orders.at(-1) : orders.find((order) => order.name === name);
  if (!found) throw new Error(`no order: ${block}`);
  return found;
}

/** mL, mL/h and h of one run, to so many places; null where there is none. */
export function figures({ contents, rate, duration }: WorkedOrder, places = 2) {
  const rounded = (value: Decimal | null | undefined) => value?.toDecimalPlaces(places).toNumber() ?? null;
  return { volume: rounded(contents?.volume), rate: rounded(rate), duration: rounded(duration) };
}

/** What each `show` of a block says. */
export function shown(block: string): readonly string[] {
  return worked(block).shows.map((show) => shownText(show, DEFAULT_REFERENCE));
}

/** What each `claim` of a block is found at. */
export function claimed(block: string): readonly { readonly holds: boolean; readonly found: number }[] {
  return worked(block).claims.map(({ outcome }) =>
    outcome.kind === 'number'
      ? { holds: outcome.holds, found: outcome.found.toNumber() }
      : { holds: outcome.claimed === outcome.found, found: Number.NaN },
  );
}
