/** What was assumed, in words. */
import { formatDecimal, formatQuantity } from '../../engine/index.ts';
import type { Assumption, Policy } from '../../note/index.ts';
import { nameInTerms } from '../terms.ts';

const BY = {
  salts: 'the weights of salt on its label',
  label: 'the ions that its label states',
  note: 'what the note states of it',
} as const;

export function assumptionText(assumption: Assumption, terms: Policy['terms']): string {
  switch (assumption.kind) {
    case 'form':
      return `${assumption.written} as ${nameInTerms(assumption.taken.name, terms)}`;
    case 'dry':
      return `${nameInTerms(assumption.substance.name, terms)} added dry, taking up ${formatQuantity(assumption.volume, 'mL')}`;
    case 'no-osmoles':
      return `${assumption.substance.name} counts no osmoles, since its molar mass is not known`;
    case 'uncounted':
      return `${assumption.label} counts by its volume only`;
    case 'by-weight':
      return `${assumption.fluid} weighed, at an estimated ${formatQuantity(assumption.gramsPerMl, 'g/mL', 4)}`;
    case 'at-once':
      return 'no time is written: counted as given at once';
    case 'endless':
      return 'it runs until it is stopped: looked at for 24 h';
    case 'whole-recipe':
      return 'no amount is written: all of the recipe is given';
    case 'together':
      return `the time is that of all ${formatDecimal(assumption.count)} together`;
    case 'no-route':
      return 'no route is written: taken as by vein';
    case 'stock':
      return `${assumption.fluid} by ${BY[assumption.by]}`;
  }
}
