/** What was assumed, in words. */
import { formatQuantity } from '../../engine/index.ts';
import type { Assumption } from '../../note/index.ts';

export function assumptionText(assumption: Assumption): string {
  switch (assumption.kind) {
    case 'form':
      return `${assumption.written} as ${assumption.taken.name}`;
    case 'dry':
      return `${assumption.substance.name} added dry, taking up ${formatQuantity(assumption.volume, 'mL')}`;
    case 'uncounted':
      return `${assumption.label} counts by its volume only`;
    case 'by-weight':
      return `${assumption.fluid} weighed, at an estimated ${formatQuantity(assumption.gramsPerMl, 'g/mL', 4)}`;
    case 'stock':
      return assumption.by === 'salts'
        ? `${assumption.fluid} by the weights of salt on its label`
        : `${assumption.fluid} by the ions that its label states`;
  }
}
