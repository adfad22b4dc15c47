import { check } from './check.ts';
import { limitText } from './limit-words.ts';

function ofAge(contraindicated: boolean | null, age: string): string {
  if (contraindicated === false) return '';
  const unsaid = contraindicated === null ? 'No age is written. ' : '';
  return `${unsaid}Up to an age of ${age} ceftriaxone is contraindicated where calcium is given by a vein. `;
}

export const calciumCeftriaxone = check({
  code: 'calcium-ceftriaxone',
  severity: 'warning',
  title: 'Calcium and ceftriaxone for one patient',
  faults: ['calcium-ceftriaxone'],
  severityOf: ({ contraindicated, mixed }) => (contraindicated === false && !mixed ? 'information' : 'warning'),
  words: ({ contraindicated, mixed, calciumIn, limit }) => ({
    read: mixed
      ? 'Ceftriaxone and calcium were read in one fluid.'
      : `Ceftriaxone and calcium (in ${calciumIn}) were both read by a vein for this patient.`,
    why: `${ofAge(contraindicated, limitText(limit))}They can come out together as a solid, and are never mixed nor given together through one line.`,
    mend: contraindicated
      ? 'Choose another antibiotic or leave out the calcium; local policy decides.'
      : 'Give one after the other with a flush between them; local policy decides.',
    source: limit.source,
  }),
  page: `Crystals of ceftriaxone and calcium were found in the lungs and kidneys of newborn infants who died. Up to 28 days of age
ceftriaxone is contraindicated where calcium is given by a vein; this is a warning, as it is where no age is written and where
both are in one fluid. In everybody else they may be given one after the other, the line flushed between them; that is
information. An older advice kept them 48 h apart in everybody and has been withdrawn. Ceftriaxone is a substance of the note’s
own with that word in its name; calcium counts in every fluid that holds it, lactated Ringer’s included.`,
  wrong: [
    {
      block:
        "substance ceftriaxone\nmixture antibiotic\n  150 mg ceftriaxone in 10 mL sodium chloride 0.9%\npatient baby\n  age 10 d\n  weight 3 kg\ngive «antibiotic» over 30 min by peripheral vein to baby\ngive 30 mL lactated Ringer's over 2 h by peripheral vein to baby",
    },
  ],
  right: [
    {
      block:
        'substance ceftriaxone\nmixture antibiotic\n  150 mg ceftriaxone in 10 mL sodium chloride 0.9%\npatient baby\n  age 10 d\n  weight 3 kg\ngive antibiotic over 30 min by peripheral vein to baby\ngive 30 mL sodium chloride 0.9% over 2 h by peripheral vein to baby',
    },
  ],
});
