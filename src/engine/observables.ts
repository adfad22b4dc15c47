/** What can be asked of mixtures, orders and patients: a fixed table, and every solute and ion by its name. */
import { findIon, type Ion } from './ions.ts';
import { nameKey } from './names.ts';
import { findSolute, type Pharmacopoeia } from './solutes.ts';
import { isCountable, type Substance } from './substances.ts';

/** What an observable counts. */
export type ObservableKind =
  | 'volume'
  | 'ion'
  | 'solute'
  | 'osmolarity'
  | 'effective-osmolarity'
  | 'osmolality'
  | 'tonicity-bag'
  | 'tonicity-body'
  | 'free-water'
  | 'sodium-load'
  | 'chloride-load'
  | 'strong-ion-difference'
  | 'bicarbonate-precursors'
  | 'sodium-to-chloride-ratio'
  | 'cation-sum'
  | 'anion-sum'
  | 'energy'
  | 'density'
  | 'freezing-point'
  | 'sodium-chloride-equivalent'
  // Of an order.
  | 'rate'
  | 'drop-rate'
  | 'duration'
  | 'bags'
  | 'potassium-rate'
  | 'glucose-rate'
  | 'free-water-for-patient'
  | 'predicted-sodium'
  | 'predicted-sodium-by-regression'
  | 'plasma'
  | 'interstitium'
  | 'cells'
  // Of a patient.
  | 'body-water'
  | 'free-water-deficit'
  | 'bicarbonate-deficit'
  | 'maintenance-rate'
  | 'maintenance-volume'
  | 'serum-osmolality'
  | 'effective-serum-osmolality'
  | 'corrected-sodium';

/** What an observable can be asked of; what a mixture holds can be asked of an order as well. */
export type SubjectKind = 'mixture' | 'order' | 'patient';

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
  /** What it is asked of. */
  readonly of: readonly SubjectKind[];
  /** The ion it counts, or null. */
  readonly ion: Ion | null;
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
  of: ['mixture', 'order'] as readonly SubjectKind[],
  ion: null,
  substance: null,
  formOpen: false,
  elemental: false,
};

function fixed(name: string, kind: ObservableKind, unit: string, more: Partial<Observable> = {}): Observable {
  const key = nameKey(name);
  return { ...PLAIN, id: key.replaceAll(' ', '-'), name, key, kind, unit, ...more };
}

function ofIon(name: string, ...aliases: string[]): Observable {
  return fixed(name, 'ion', 'mmol/L', { aliases, total: 'mmol', ion: findIon(name) });
}

function ofOrder(name: string, kind: ObservableKind, unit: string, ...aliases: string[]): Observable {
  return fixed(name, kind, unit, { of: ['order'], total: unit || null, aliases });
}

function ofPatient(name: string, kind: ObservableKind, unit: string, ...aliases: string[]): Observable {
  return fixed(name, kind, unit, { of: ['patient'], aliases });
}

const FIXED: readonly Observable[] = [
  fixed('volume', 'volume', 'mL', { aliases: ['final volume', 'total volume'] }),
  ofIon('sodium'),
  ofIon('potassium'),
  ofIon('calcium'),
  ofIon('magnesium'),
  ofIon('chloride'),
  ofIon('bicarbonate', 'hydrogen carbonate'),
  ofIon('lactate'),
  ofIon('acetate'),
  ofIon('gluconate'),
  ofIon('citrate'),
  ofIon('phosphate', 'phosphorus'),
  ofIon('sulfate', 'sulphate'),
  fixed('osmolarity', 'osmolarity', 'mOsm/L', { total: 'mOsm', aliases: ['calculated osmolarity'] }),
  fixed('osmolality', 'osmolality', 'mOsm/kg', { aliases: ['estimated osmolality'] }),
  fixed('effective osmolarity', 'effective-osmolarity', 'mOsm/L', { total: 'mOsm' }),
  fixed('tonicity in the bag', 'tonicity-bag', '', { aliases: ['tonicity in bag'] }),
  fixed('tonicity in the body', 'tonicity-body', '', { aliases: ['tonicity in body'] }),
  fixed('free water', 'free-water', 'mL/L', { total: 'mL', aliases: ['electrolyte free water'] }),
  fixed('sodium load', 'sodium-load', 'mmol/L', { total: 'mmol', ion: findIon('sodium') }),
  fixed('chloride load', 'chloride-load', 'mmol/L', { total: 'mmol', ion: findIon('chloride') }),
  fixed('strong ion difference', 'strong-ion-difference', 'mEq/L', { total: 'mEq' }),
  fixed('bicarbonate precursors', 'bicarbonate-precursors', 'mmol/L', { total: 'mmol' }),
  fixed('sodium to chloride ratio', 'sodium-to-chloride-ratio', ''),
  fixed('cation sum', 'cation-sum', 'mEq/L', { total: 'mEq', aliases: ['sum of cations'] }),
  fixed('anion sum', 'anion-sum', 'mEq/L', { total: 'mEq', aliases: ['sum of anions'] }),
  fixed('energy', 'energy', 'kcal/L', { total: 'kcal' }),
  fixed('sodium chloride equivalent', 'sodium-chloride-equivalent', '%', { total: 'g' }),
  fixed('freezing point depression', 'freezing-point', '°C'),
  fixed('density', 'density', 'g/mL'),
  ofOrder('rate', 'rate', 'mL/h'),
  ofOrder('drop rate', 'drop-rate', 'drops/min'),
  ofOrder('duration', 'duration', 'h'),
  ofOrder('bags', 'bags', ''),
  ofOrder('potassium rate', 'potassium-rate', 'mmol/h'),
  ofOrder('glucose rate', 'glucose-rate', 'mg/kg/min', 'dextrose rate'),
  ofOrder('free water for the patient', 'free-water-for-patient', 'mL'),
  { ...ofOrder('predicted sodium', 'predicted-sodium', 'mmol/L'), of: ['order', 'patient'] },
  {
    ...ofOrder('predicted sodium by regression', 'predicted-sodium-by-regression', 'mmol/L'),
    of: ['order', 'patient'],
  },
  ofOrder('plasma', 'plasma', 'mL'),
  ofOrder('interstitium', 'interstitium', 'mL'),
  ofOrder('cells', 'cells', 'mL'),
  ofPatient('body water', 'body-water', 'L', 'total body water'),
  ofPatient('free water deficit', 'free-water-deficit', 'L', 'water deficit'),
  ofPatient('bicarbonate deficit', 'bicarbonate-deficit', 'mmol'),
  ofPatient('maintenance rate', 'maintenance-rate', 'mL/h'),
  ofPatient('maintenance volume', 'maintenance-volume', 'mL'),
  ofPatient('serum osmolality', 'serum-osmolality', 'mOsm/kg'),
  ofPatient('effective serum osmolality', 'effective-serum-osmolality', 'mOsm/kg'),
  ofPatient('corrected sodium', 'corrected-sodium', 'mmol/L'),
];

const BY_KEY: ReadonlyMap<string, Observable> = new Map(
  FIXED.flatMap((observable) => [observable.key, ...observable.aliases].map((key) => [key, observable] as const)),
);

const ELEMENTAL = 'elemental ';

/** The fixed table, in the order in which results are told. */
export function fixedObservables(): readonly Observable[] {
  return FIXED;
}

/** The observable of that name: the fixed table, `elemental` before an ion, other ions, then solutes as added. */
export function findObservable(key: string, pharmacopoeia: Pharmacopoeia = 'USP'): Observable | null {
  const plain = nameKey(key);
  const found = BY_KEY.get(plain);
  if (found) return found;
  if (plain.startsWith(ELEMENTAL)) {
    const of = findObservable(plain.slice(ELEMENTAL.length), pharmacopoeia);
    return of?.kind === 'ion' && !of.elemental
      ? { ...of, name: plain, key: plain, aliases: [], elemental: true }
      : null;
  }
  const ion = findIon(plain);
  return ion ? { ...ionObservable(ion), key: plain } : soluteByName(plain, pharmacopoeia);
}

function soluteByName(key: string, pharmacopoeia: Pharmacopoeia): Observable | null {
  const reading = findSolute(key, pharmacopoeia);
  if (!reading || reading.substance.id === 'water') return null;
  const { substance, alternatives } = reading;
  if (alternatives.some(({ family }) => family !== substance.family)) return null;
  return { ...soluteObservable(substance), name: key, key, formOpen: alternatives.length > 0 };
}

/** Asks for an ion: one of a note's own, or a built-in one that the fixed table leaves out. */
export function ionObservable(ion: Ion): Observable {
  return (
    FIXED.find((known) => known.kind === 'ion' && known.ion === ion) ?? {
      ...fixed(ion.name, 'ion', 'mmol/L', { total: 'mmol' }),
      ion,
    }
  );
}

/** Asks for a solute as added; what has no molar mass and gives no particles by its mass. */
export function soluteObservable(substance: Substance): Observable {
  const { family, own } = substance;
  const [unit, total] = isCountable(substance) ? ['mmol/L', 'mmol'] : own ? ['mg/mL', 'mg'] : ['g/L', 'g'];
  return { ...fixed(family, 'solute', unit!, { total: total! }), substance };
}
