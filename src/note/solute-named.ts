/** A solute by its name: one that the note declares, or a built-in one under the pharmacopoeia of local policy. */
import { findSolute, type SoluteReading, type Substance } from '../engine/index.ts';
import type { Words } from '../notation/ast.ts';
import type { Surroundings } from './fluids.ts';
import type { MentionedSubstance } from './model.ts';

export function soluteNamed(key: string, { own, policy }: Pick<Surroundings, 'own' | 'policy'>): SoluteReading | null {
  const substance = own.substance(key);
  return substance ? { substance, by: 'name', alternatives: [] } : findSolute(key, policy.pharmacopoeia);
}

/** What its card says of it: `from` another note, where that declares it. */
export function mentioned(
  { key, text }: Words,
  substance: Substance,
  { imports }: Pick<Surroundings, 'imports'>,
): MentionedSubstance {
  const used = imports.get(key);
  const from = used?.kind === 'substance' && used.substance === substance ? used.from : null;
  return { kind: 'substance', substance, written: text, from };
}
