/** What can be asked of a mixture: a fixed table, and every solute by its name. */
import { nameKey } from './names.ts';
import { findIon, type Particle } from './particles.ts';
import { findSolute, type Pharmacopoeia, type Substance } from './substances.ts';

/** What an observable counts. */
export type ObservableKind =
  | 'volume'
  | 'particle'
  | 'solute'
  | 'osmolarity'
  | 'effective-osmolarity'
  | 'osmolality'
  | 'tonicity-bag'
  | 'tonicity-body'
  | 'free-water'
  | 'sodium-load'
  | 'chloride-load'
  /** Read, but not worked out yet. */
  | 'other';

/** Something that a claim, a result or a bound number can be about. */
export interface Observable {
  /** With hyphens: `free-water`; a solute's is that of its family, so that dextrose and glucose share one. */
  readonly id: string;
  readonly name: string;
  readonly key: string;
  /** Other keys. */
  readonly aliases: readonly string[];
  readonly kind: ObservableKind;
  /** The unit of its result for a mixture; empty for a tonicity and a ratio. */
  readonly unit: string;
  /** The unit of the whole container's total, or null where there is none. */
  readonly total: string | null;
  /** False: read, but not worked out yet. */
  readonly known: boolean;
  /** The particle it counts, or null. */
  readonly particle: Particle | null;
  /** The substance whose mass it means (`dextrose` in g/L is the monohydrate under USP), or null. */
  readonly substance: Substance | null;
  /** The words leave the crystal form open: a mass is that of the forms as added. */
  readonly formOpen: boolean;
  /** `elemental calcium`: its mass may be asked. */
  readonly elemental: boolean;
}

const PLAIN = {
  aliases: [],
  total: null,
  known: true,
  particle: null,
  substance: null,
  formOpen: false,
  elemental: false,
};

function fixed(name: string, kind: ObservableKind, unit: string, more: Partial<Observable> = {}): Observable {
  const key = nameKey(name);
  return { ...PLAIN, id: key.replaceAll(' ', '-'), name, key, kind, unit, ...more };
}

function ion(name: string, ...aliases: string[]): Observable {
  return fixed(name, 'particle', 'mmol/L', { aliases, total: 'mmol', particle: findIon(name) });
}

function later(
  name: string,
  unit: string,
  kind: ObservableKind = 'other',
  aliases: readonly string[] = [],
): Observable {
  return fixed(name, kind, unit, { known: false, aliases });
}

const FIXED: readonly Observable[] = [
  fixed('volume', 'volume', 'mL', { aliases: ['final volume', 'total volume'] }),
  ion('sodium'),
  ion('potassium'),
  ion('calcium'),
  ion('magnesium'),
  ion('chloride'),
  ion('bicarbonate', 'hydrogen carbonate'),
  ion('lactate'),
  ion('acetate'),
  ion('gluconate'),
  later('citrate', 'mmol/L'),
  later('phosphate', 'mmol/L'),
  ion('sulfate', 'sulphate'),
  fixed('osmolarity', 'osmolarity', 'mOsm/L', { total: 'mOsm', aliases: ['calculated osmolarity'] }),
  later('osmolality', 'mOsm/kg', 'osmolality'),
  fixed('effective osmolarity', 'effective-osmolarity', 'mOsm/L', { total: 'mOsm' }),
  fixed('tonicity in the bag', 'tonicity-bag', '', { aliases: ['tonicity in bag'] }),
  fixed('tonicity in the body', 'tonicity-body', '', { aliases: ['tonicity in body'] }),
  fixed('free water', 'free-water', 'mL/L', { total: 'mL', aliases: ['electrolyte free water'] }),
  fixed('sodium load', 'sodium-load', 'mmol/L', { total: 'mmol', particle: findIon('sodium') }),
  fixed('chloride load', 'chloride-load', 'mmol/L', { total: 'mmol', particle: findIon('chloride') }),
  later('strong ion difference', 'mEq/L'),
  later('bicarbonate precursors', 'mmol/L'),
  later('sodium to chloride ratio', ''),
  later('energy', 'kcal/L'),
  later('density', 'g/mL'),
  later('rate', 'mL/h'),
  later('duration', 'h'),
  later('bags', ''),
  later('potassium rate', 'mmol/h'),
  later('glucose rate', 'mg/kg/min', 'other', ['dextrose rate']),
  later('free water for the patient', 'mL'),
  later('predicted sodium', 'mmol/L'),
  later('plasma', 'mL'),
  later('interstitium', 'mL'),
  later('cells', 'mL'),
];

const BY_KEY: ReadonlyMap<string, Observable> = new Map(
  FIXED.flatMap((observable) => [observable.key, ...observable.aliases].map((key) => [key, observable] as const)),
);

const ELEMENTAL = 'elemental ';

/** The fixed table, in the order in which results are told. */
export function fixedObservables(): readonly Observable[] {
  return FIXED;
}

/** The observable of that name: the fixed table, `elemental` before an ion, then solutes as added. */
export function findObservable(key: string, pharmacopoeia: Pharmacopoeia = 'USP'): Observable | null {
  const plain = nameKey(key);
  const found = BY_KEY.get(plain);
  if (found) return found;
  if (plain.startsWith(ELEMENTAL)) {
    const of = BY_KEY.get(plain.slice(ELEMENTAL.length));
    return of?.particle && of.kind === 'particle'
      ? { ...of, name: `${ELEMENTAL}${of.name}`, key: plain, aliases: [], elemental: true }
      : null;
  }
  return soluteObservable(plain, pharmacopoeia);
}

function soluteObservable(key: string, pharmacopoeia: Pharmacopoeia): Observable | null {
  const reading = findSolute(key, pharmacopoeia);
  if (!reading || reading.substance.gives.length === 0) return null;
  const { substance, alternatives } = reading;
  return {
    ...fixed(key, 'solute', 'mmol/L'),
    id: substance.family.replaceAll(' ', '-'),
    total: 'mmol',
    substance,
    formOpen: alternatives.length > 0,
  };
}
