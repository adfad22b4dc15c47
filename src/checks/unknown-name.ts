import { parseBlock } from '../notation/index.ts';
import { check, type Fix } from './check.ts';
import { chosen, didYouMean } from './wording.ts';

const WANTED = { patient: 'a patient', give: 'a named order', fluid: 'a fluid' } as const;
const KINDS = {
  mixture: 'a mixture',
  stock: 'a stock',
  substance: 'a substance',
  patient: 'a patient',
  give: 'an order',
} as const;

export const unknownName = check({
  code: 'unknown-name',
  severity: 'error',
  title: 'A name that nothing answers to',
  faults: ['unknown-name', 'wrong-kind'],
  words(fault) {
    const { found } = fault;
    if (fault.code === 'wrong-kind') {
      return {
        read: `‘${found}’ was read as ${WANTED[fault.wanted]}.`,
        why: `In this note that is the name of ${KINDS[fault.is]}.`,
        mend: `Name ${WANTED[fault.wanted]}.`,
      };
    }
    const { as, near } = fault;
    if (as === 'named') {
      return {
        read: `‘${found}’ was read as a name.`,
        why: 'Nothing of this note has that name.',
        mend: didYouMean(near, 'Name a patient, a mixture or an order of this note.'),
      };
    }
    if (as) {
      return {
        read: `‘${found}’ was read as ${WANTED[as]}.`,
        why: `No ${as === 'patient' ? 'patient' : 'order'} of this note has that name.`,
        mend: didYouMean(
          near,
          as === 'patient' ? 'Begin a patient of that name in this note.' : `Give the order its name: … as ${found}.`,
        ),
      };
    }
    return {
      read: `‘${found}’ was read as a fluid or solute.`,
      why: 'It is none that is known here, and no mixture of this note has that name.',
      mend: didYouMean(near, 'Write the full generic name, or begin a mixture of that name in this note.'),
    };
  },
  fixes: (fault) =>
    fault.code === 'unknown-name' ? [...chosen(fault.near), ...(fault.solute ? ownSubstance(fault.found) : [])] : [],
  page: `A fluid is a solute with a strength, a fluid of the pharmacopoeia by its name, or a mixture of the same note. A
name that is none of these is never guessed: the mixture it belongs to, and whatever is made from it, shows no results
until it is mended. The other mixtures of the note do.`,
  wrong: [
    { block: 'mixture bag\n  1 L «sodum chloride» 0.9%' },
    { block: 'mixture first\n  1 L sodium chloride 0.9%\nmixture other\n  100 mL «frist»' },
    { block: 'give 500 mL sodium chloride 0.9% over 4 h by central vein to «nobody»' },
    { block: 'patient adult\n  weight 70 kg\nmixture drip\n  1 L «adult»' },
  ],
  right: [{ block: 'mixture first\n  1 L sodium chloride 0.9%\nmixture other\n  100 mL first' }],
});

/** A solute of the note's own, of which nothing is known yet; none where the words cannot be its name. */
function ownSubstance(name: string): readonly Fix[] {
  const header = `substance ${name}`;
  if (parseBlock(header).faults.length > 0) return [];
  const lines = [header, '  molar mass ‹number› g/mol'];
  const title = `Write ‘${header}’ at the end of the block, with gaps to be filled in`;
  return [{ title, lines, put: 'last', changesNumber: true }];
}
