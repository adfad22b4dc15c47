/** How a number was worked out: each line as data, and its sentence. */
import type { Decimal } from './decimal.ts';
import { formatDecimal } from './format.ts';
import type { Quantity } from './quantity.ts';

/** One line of working. `of` names what it is about; the sentence leaves it out, so that a list can lead with it. */
export type WorkingStep =
  /** The same quantity in another unit: `0.9 % = 9 g/L`. */
  | { readonly kind: 'restated'; readonly of: string; readonly from: Quantity; readonly to: Quantity }
  /** `9 g ÷ 58.44 g/mol = 154 mmol`. */
  | {
      readonly kind: 'mass-to-amount';
      readonly of: string;
      readonly mass: Quantity;
      readonly molarMass: Decimal;
      readonly amount: Quantity;
    }
  /** `5 mEq ÷ 2 mEq/mmol = 2.5 mmol`. */
  | {
      readonly kind: 'equivalents-to-amount';
      readonly of: string;
      readonly equivalents: Quantity;
      readonly perMole: number;
      readonly amount: Quantity;
    }
  /** `308 mOsm ÷ 2 mOsm/mmol = 154 mmol`. */
  | {
      readonly kind: 'osmoles-to-amount';
      readonly of: string;
      readonly osmoles: Quantity;
      readonly perMole: number;
      readonly amount: Quantity;
    }
  /** `4 mmol chloride ÷ 2 = 2 mmol calcium chloride dihydrate`. */
  | {
      readonly kind: 'ion-to-substance';
      readonly of: string;
      readonly ion: string;
      readonly ionAmount: Quantity;
      readonly count: number;
      readonly amount: Quantity;
    }
  /** `154 mmol ÷ 1.01 L = 152.5 mmol/L`. */
  | {
      readonly kind: 'per-litre';
      readonly of: string;
      readonly amount: Quantity;
      readonly volume: Quantity;
      readonly perLitre: Quantity;
    }
  /** `152.5 mOsm/L + 19.8 mOsm/L + 172.3 mOsm/L = 344.6 mOsm/L`. */
  | { readonly kind: 'sum'; readonly of: string; readonly parts: readonly Quantity[]; readonly total: Quantity }
  /** `1000 mL/L × (1 - (77 mmol/L + 0 mmol/L) ÷ 154 mmol/L) = 500 mL/L`. */
  | {
      readonly kind: 'free-water';
      readonly of: string;
      readonly sodium: Quantity;
      readonly potassium: Quantity;
      readonly reference: Quantity;
      readonly freeWater: Quantity;
    };

/** The line as it is written out; inputs to five digits, results to four. */
export function workingText(step: WorkingStep): string {
  switch (step.kind) {
    case 'restated':
      return `${input(step.from)} = ${result(step.to)}`;
    case 'mass-to-amount':
      return `${input(step.mass)} ÷ ${formatDecimal(step.molarMass, 5)} g/mol = ${result(step.amount)}`;
    case 'equivalents-to-amount':
      return `${input(step.equivalents)} ÷ ${step.perMole} mEq/mmol = ${result(step.amount)}`;
    case 'osmoles-to-amount':
      return `${input(step.osmoles)} ÷ ${step.perMole} mOsm/mmol = ${result(step.amount)}`;
    case 'ion-to-substance':
      return `${input(step.ionAmount)} ${step.ion} ÷ ${step.count} = ${result(step.amount)} ${step.of}`;
    case 'per-litre':
      return `${result(step.amount)} ÷ ${input(step.volume)} = ${result(step.perLitre)}`;
    case 'sum':
      return `${step.parts.map(result).join(' + ')} = ${result(step.total)}`;
    case 'free-water': {
      const { sodium, potassium, reference, freeWater } = step;
      const ions = `(${result(sodium)} + ${result(potassium)})`;
      return `1000 mL/L × (1 - ${ions} ÷ ${input(reference)}) = ${result(freeWater)}`;
    }
  }
}

/** Which units cancel in a line, in words, and what is left; null where none do. */
export function cancelling(step: WorkingStep): string | null {
  switch (step.kind) {
    case 'mass-to-amount':
      return 'g cancels, mol is left; 1 mol is 1000 mmol';
    case 'equivalents-to-amount':
      return 'mEq cancels, mmol is left';
    case 'osmoles-to-amount':
      return 'mOsm cancels, mmol is left';
    case 'free-water':
      return 'mmol/L cancels, mL/L is left';
    default:
      return null;
  }
}

function input({ value, unit }: Quantity): string {
  return `${formatDecimal(value, 5)} ${unit.symbol}`;
}

function result({ value, unit }: Quantity): string {
  return `${formatDecimal(value, 4)} ${unit.symbol}`;
}
