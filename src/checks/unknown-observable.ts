import { check } from './check.ts';
import { didYouMean } from './wording.ts';

export const unknownObservable = check({
  code: 'unknown-observable',
  severity: 'error',
  title: 'A result that is not known by that name',
  faults: ['unknown-observable'],
  words: ({ found, near }) => ({
    read: `‘${found}’ was read as a result to look at.`,
    why: 'No result goes by that name.',
    mend: didYouMean(
      near,
      'Name an ion or solute, or volume, osmolarity, effective osmolarity, free water or sodium load.',
    ),
  }),
  page: `A claim, \`show\` and \`compare\` name a result: an ion, a solute, or one of the results listed in the notation's
table of observables. What cannot be found there is not answered.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim «osmolartiy» 308 mOsm/L' }],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim osmolarity 308 mOsm/L' }],
});
