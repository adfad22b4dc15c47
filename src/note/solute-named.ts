/** A solute by its name: one that the note declares, or a built-in one under the pharmacopoeia of local policy. */
import { findSolute, type SoluteReading } from '../engine/index.ts';
import type { Surroundings } from './fluids.ts';

export function soluteNamed(key: string, { own, policy }: Pick<Surroundings, 'own' | 'policy'>): SoluteReading | null {
  const substance = own.substance(key);
  return substance ? { substance, by: 'name', alternatives: [] } : findSolute(key, policy.pharmacopoeia);
}
