import type { LinkSlip } from '../note/bound-faults.ts';
import { check, type Fix, type Wording } from './check.ts';
import { both, chosen, didYouMean, either, measures, rewritten } from './wording.ts';

const MARKS = '<!-- infusion:compare … by … --> and <!-- /infusion -->';

function wordsOf(slip: LinkSlip): Wording {
  const read = `‘${'found' in slip ? slip.found : slip.observable}’ was read.`;
  switch (slip.problem) {
    case 'not-a-link':
      return {
        read,
        why: 'It was meant for a link to a result, and Markdown does not take it for one.',
        mend: /\s/.test(slip.found.trim())
          ? `A space ends the target of a link: write ${slip.safe}.`
          : 'Write it as [77 mmol/L](infusion:NAME/RESULT), and not within another link.',
      };
    case 'mark-not-alone':
      return {
        read,
        why: 'A mark of a kept table stands by itself on one line.',
        mend: 'Put the mark on a line of its own.',
      };
    case 'mark-unclosed':
      return {
        read,
        why: 'No closing mark follows it in the same list item, quotation or text, so nothing is kept and nothing rewritten.',
        mend: 'Write <!-- /infusion --> where the table ends.',
      };
    case 'mark-unopened':
      return {
        read,
        why: 'It closes a kept table that nothing opens here.',
        mend: 'Take it out, or put <!-- infusion:compare … by … --> before the table.',
      };
    case 'too-many-marks':
      return {
        read: 'A link to a result stands among thousands of brackets or stars.',
        why: 'Text that holds so many is not looked through.',
        mend: 'Put an empty line before the paragraph that holds the link.',
      };
    case 'no-name':
      return {
        read: `‘infusion:${slip.found}’ was read.`,
        why: 'It names no mixture, order or patient, or no result.',
        mend: 'Write infusion:NAME/RESULT, with hyphens for spaces.',
      };
    case 'unknown-name':
      return {
        read: `‘${slip.found}’ was read as a name.`,
        why: 'Nothing in the ordinary blocks of this note has that name, and no known fluid has it.',
        mend: didYouMean(slip.readings, 'Write the name of a mixture, order or patient of this note.'),
      };
    case 'unknown-observable':
      return {
        read: `‘${slip.found}’ was read as a result.`,
        why: 'It is none that is known here.',
        mend: didYouMean(slip.readings, 'Write one of the results in the notation’s list, with hyphens for spaces.'),
      };
    case 'not-of-this':
      return {
        read: `${slip.observable} of ‘${slip.subject}’ was read.`,
        why: `‘${slip.subject}’ is ${SUBJECTS[slip.is]}, and ${slip.observable} is asked of ${both(slip.of.map((kind) => SUBJECTS[kind]))}.`,
        mend: 'Name another result, or what has this one.',
      };
    case 'nothing-bound':
      return {
        read: slip.found.trim() === '' ? 'A link without text was read.' : read,
        why: `The text of a link to ${slip.of} holds ${slip.fits}, and here is none.`,
        mend: `Write ${slip.fits} into the text, or leave /${slip.of.replaceAll(' ', '-')} out of the target.`,
      };
    case 'several-bound':
      return {
        read,
        why: 'A link holds one value, so that it is plain which is kept. Here are several.',
        mend: 'Leave one in the text of the link, and give each of the others its own.',
      };
    case 'wrong-dimension':
      return {
        read,
        why: `${slip.found} ${measures(slip.got)}, and ${slip.of} is not measured so.`,
        mend: `Write it in ${either(slip.fits)}.`,
      };
    case 'unread-mark':
      return {
        read,
        why: `It says nothing that can be kept between marks.`,
        mend: `Write ${MARKS}.`,
      };
    case 'other-text':
      return {
        read: `‘${slip.found}’ stands between the marks of a kept table.`,
        why: 'Only the table itself may stand there, so nothing is rewritten.',
        mend: 'Put the text before or behind the marks.',
      };
  }
}

const SUBJECTS = { mixture: 'a mixture', order: 'an order', patient: 'a patient' } as const;

function fixesOf(slip: LinkSlip): readonly Fix[] {
  if (slip.problem === 'not-a-link' && /\s/.test(slip.found.trim())) return rewritten(slip.safe);
  return 'readings' in slip ? chosen(slip.readings) : [];
}

const BAG = '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\n';

export const brokenLink = check({
  code: 'broken-link',
  severity: 'error',
  title: 'A link or a mark that is bound to nothing',
  faults: ['broken-link'],
  words: ({ slip }) => wordsOf(slip),
  fixes: ({ slip }) => fixesOf(slip),
  page: `A link to \`infusion:NAME/RESULT\` binds the one value in its text to a result of the note's ordinary blocks; a
link to \`infusion:NAME\` alone is a cross reference. Hyphens stand for spaces in both. A mark that keeps a table stands
alone on its line, and has its closing mark in the same list item, quotation or text. Where one of these is not so,
nothing is bound and nothing is rewritten.`,
  wrong: [
    { note: true, block: `${BAG}It carries [154 mmol/L](infusion:«bagg»/sodium) of sodium.\n` },
    { note: true, block: `${BAG}It carries [154 mmol/L](infusion:bag/«sodum») of sodium.\n` },
    { note: true, block: `${BAG}It is [«154 mmol/L of sodium in 1 L»](infusion:bag/sodium).\n` },
    { note: true, block: `${BAG}It has [«enough»](infusion:bag/sodium) sodium.\n` },
    { note: true, block: `${BAG}It has [«9 h»](infusion:bag/sodium) of sodium.\n` },
    { note: true, block: `${BAG}It has [0 mL/L](«infusion:bag/free water») of free water.\n` },
    { note: true, block: `${BAG}It runs for [16 h](infusion:bag/«duration»).\n` },
    { note: true, block: `${BAG}«<!-- infusion:compare bag by sodium -->»\n\n| a table |\n` },
    { note: true, block: `${BAG}«<!-- /infusion -->»\n` },
    { note: true, block: `${BAG}«<!-- infusion:compare bag by sodium -->»\n\nOther text.\n\n<!-- /infusion -->\n` },
    { note: true, block: `${BAG}«<!-- infusion:show bag sodium -->»\n\n<!-- /infusion -->\n` },
  ],
  right: [
    { note: true, block: `${BAG}See [the bag](infusion:bag): [154 mmol/L](infusion:bag/sodium) of sodium.\n` },
    { note: true, block: `${BAG}Write \`[154 mmol/L](infusion:NAME/sodium)\`.\n` },
  ],
});
