import type { FaultOf } from './check.ts';
import { check } from './check.ts';
import { both, either, measures } from './wording.ts';

function fittingAmount(fault: FaultOf<'wrong-dimension'>): { why: string; mend: string } {
  const found = `${fault.found} ${measures(fault.got)}`;
  const fits = either(fault.fits);
  switch (fault.wanted) {
    case 'amount-of-solute':
      return fault.got?.over === 'volume'
        ? {
            why: `${fault.of} is a dry solute here: it has no strength, so a volume of it holds an unknown amount.`,
            mend: `Write its strength (${fault.of} 2 mmol/mL), or an amount in ${fits}.`,
          }
        : { why: `${found}, and an amount of ${fault.of} does not.`, mend: `Write the amount in ${fits}.` };
    case 'amount-of-fluid':
      return { why: `${found}; of ${fault.of} a volume is measured out.`, mend: `Write the amount in ${fits}.` };
    case 'volume':
      return { why: `${found}; for ${fault.of} a volume is expected.`, mend: `Write it in ${fits}.` };
    case 'weight':
      return { why: `${found}; of ${fault.of} a weight is expected here.`, mend: `Write it in ${fits}.` };
    case 'strength':
      return { why: `${found}, which is no strength of ${fault.of}.`, mend: `Write the strength in ${fits}.` };
    case 'order-amount':
      return {
        why: `${found}, and an amount to give is a volume, or an amount of what is in it.`,
        mend: `Write it in ${fits}.`,
      };
    case 'order-rate':
      return {
        why: `${found}, and a rate is a volume, or an amount of what is in it, in a time.`,
        mend: `Write it in ${fits}.`,
      };
    case 'order-time':
      return { why: `${found}, and here a time is expected.`, mend: `Write it in ${fits}.` };
    case 'drops':
      return { why: `${found}; a set is told by its drops in a millilitre.`, mend: 'Write it in drops/mL.' };
    case 'patient-value':
      return { why: `${found}, and ${fault.of} does not.`, mend: `Write it in ${fits}.` };
    case 'claim':
      return { why: `${found}, and ${fault.of} is not measured so.`, mend: `Write it in ${fits}.` };
    case 'tolerance':
      return { why: `${found}, and ${fault.of} does not.`, mend: `Write the tolerance in ${fits}.` };
  }
}

export const wrongDimension = check({
  code: 'wrong-dimension',
  severity: 'error',
  title: 'An amount of the wrong kind',
  faults: [
    'wrong-dimension',
    'ion-not-in-substance',
    'varying-charge',
    'no-molar-mass',
    'no-such-solution',
    'drops-without-set',
  ],
  words(fault) {
    if (fault.code === 'ion-not-in-substance') {
      return {
        read: `${fault.ion} was read as part of ${fault.substance}.`,
        why: `${fault.substance} gives ${both(fault.gives)}, and no ${fault.ion}.`,
        mend: `Write the salt that carries ${fault.ion}.`,
      };
    }
    const read = `‘${fault.found}’ was read.`;
    switch (fault.code) {
      case 'varying-charge':
        return {
          read,
          why: `The charge of ${fault.ion} varies with the acidity, so mEq do not say how much there is.`,
          mend: 'Write it in mmol.',
        };
      case 'no-molar-mass':
        return {
          read,
          why: `${fault.of} has no molar mass in this note, so a mass of it gives no number of ions.`,
          mend: 'Add its molar mass, or write the amount in mmol.',
        };
      case 'no-such-solution':
        return {
          read,
          why: `${fault.of} is sold as a solution, and not in that strength.`,
          mend:
            fault.strengths.length > 0
              ? `Write one of its strengths: ${either(fault.strengths)}.`
              : 'Name the solution.',
        };
      case 'drops-without-set':
        return {
          read,
          why: 'A drop is as large as the set makes it, and no set is named.',
          mend: 'Add the set, such as: through a set of 20 drops/mL.',
        };
      case 'wrong-dimension':
        return { read, ...fittingAmount(fault) };
    }
  },
  page: `Every quantity measures something: a mass, a volume, an amount of substance, an amount of charge, or one of these
per another. Where a volume is expected a mass does not do, and a dry solute without a strength cannot be measured in
millilitres. The finding names what was read, what it measures, and what would fit.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «10 mL» potassium chloride' },
    { block: "mixture bag\n  «2 g» lactated Ringer's" },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  withdraw «20 mmol»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium «154 mOsm/h»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  20 mmol «potassium» as sodium chloride' },
  ],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL' }],
});
