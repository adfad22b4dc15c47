import type { SubjectKind } from '../engine/index.ts';
import { check } from './check.ts';
import { chosen, didYouMean, either } from './wording.ts';

const SUBJECTS: Record<SubjectKind, string> = { mixture: 'a mixture', order: 'an order', patient: 'a patient' };

export const unknownObservable = check({
  code: 'unknown-observable',
  severity: 'error',
  title: 'A result that is not known by that name',
  faults: ['unknown-observable', 'not-of-this'],
  words(fault) {
    if (fault.code === 'not-of-this') {
      const { observable, of, subject, is } = fault;
      const whose = subject ? `‘${subject}’ is ${SUBJECTS[is]}` : `here stands ${SUBJECTS[is]}`;
      return {
        read: `${observable} is asked for.`,
        why: `It is told of ${either(of.map((kind) => SUBJECTS[kind]))}, and ${whose}.`,
        mend: `Name ${either(of.map((kind) => SUBJECTS[kind]))} first.`,
      };
    }
    return {
      read: `‘${fault.found}’ was read as a result to look at.`,
      why: 'No result goes by that name.',
      mend: didYouMean(
        fault.near,
        'Name an ion or solute, or volume, osmolarity, effective osmolarity, free water or sodium load.',
      ),
    };
  },
  fixes: (fault) => (fault.code === 'unknown-observable' ? chosen(fault.near) : []),
  page: `A claim, \`show\` and \`compare\` name a result: an ion, a solute, or one of the results listed in the notation's
table of observables. What cannot be found there is not answered.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim «osmolartiy» 308 mOsm/L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim «rate» 60 mL/h' },
  ],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim osmolarity 308 mOsm/L' }],
});
