/** What the note writes of a patient that an order is checked by. */
import type { Decimal } from '../../engine/index.ts';
import type { WorkedPatient } from '../../note/index.ts';

export interface Fact {
  readonly name: string;
  readonly value: Decimal;
  readonly unit: string;
  /** LOINC, for what is plainly that and nothing narrower. */
  readonly loinc: { readonly code: string; readonly display: string } | null;
}

/**
 * Sodium: loinc.org/2951-2. Potassium: loinc.org/2823-3. A weight has no code: by FHIR's profile of vital signs one with
 * LOINC 29463-7 says when it was measured, and a note does not.
 */
const LOINC = {
  sodium: { code: '2951-2', display: 'Sodium [Moles/volume] in Serum or Plasma' },
  potassium: { code: '2823-3', display: 'Potassium [Moles/volume] in Serum or Plasma' },
} as const;

export function factsOf({ facts }: WorkedPatient): readonly Fact[] {
  const { weight, birthWeight, serum } = facts;
  const told: readonly (Omit<Fact, 'value'> & { readonly value: Decimal | null })[] = [
    { name: 'body weight', value: weight, unit: 'kg', loinc: null },
    { name: 'birth weight', value: birthWeight, unit: 'kg', loinc: null },
    { name: 'serum sodium', value: serum.sodium, unit: 'mmol/L', loinc: LOINC.sodium },
    { name: 'serum potassium', value: serum.potassium, unit: 'mmol/L', loinc: LOINC.potassium },
  ];
  return told.flatMap((fact) => (fact.value ? [{ ...fact, value: fact.value }] : []));
}
