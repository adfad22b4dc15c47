/** What was assumed, in words. */
import { formatQuantity } from '../../engine/index.ts';
import type { Assumption } from '../../note/index.ts';

const BY = {
  salts: 'the weights of salt on its label',
  label: 'the ions that its label states',
  note: 'what the note states of it',
} as const;

export function assumptionText(assumption: Assumption): string {
  switch (assumption.kind) {
    case 'form':
      return `${assumption.written} as ${assumption.taken.name}`;
    case 'dry':
      return `${assumption.substance.name} added dry, taking up ${formatQuantity(assumption.volume, 'mL')}`;
    case 'no-osmoles':
      return `${assumption.substance.name} counts no osmoles, since its molar mass is not known`;
    case 'uncounted':
      return `${assumption.label} counts by its volume only`;
    case 'by-weight':
      return `${assumption.fluid} weighed, at an estimated ${formatQuantity(assumption.gramsPerMl, 'g/mL', 4)}`;
    case 'stock':
      return `${assumption.fluid} by ${BY[assumption.by]}`;
  }
}
