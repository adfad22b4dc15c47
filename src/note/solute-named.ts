/** A solute by its name: one that the note declares, or a built-in one. */
import { findSolute, type SoluteReading } from '../engine/index.ts';
import type { OwnSubstances } from './own-substances.ts';

export function soluteNamed(key: string, { own }: { readonly own: OwnSubstances }): SoluteReading | null {
  const substance = own.substance(key);
  return substance ? { substance, by: 'name', alternatives: [] } : findSolute(key);
}
