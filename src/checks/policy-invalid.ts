import { formatQuantity } from '../engine/index.ts';
import { check, type FaultOf, type Wording } from './check.ts';
import { REFUSALS } from './refusals.ts';
import { didYouMean, either, measures } from './wording.ts';

type Fault = FaultOf<'policy-invalid'>;
type Of<P extends Fault['problem']> = Extract<Fault, { problem: P }>;
type Worded = { readonly [P in Fault['problem']]: (fault: Of<P>) => Wording };

const WANTED = {
  object: 'entries between { and }',
  text: 'a text between quotation marks',
  quantity: 'a number with its unit between quotation marks',
  truth: 'true or false, without quotation marks,',
  'list-of-texts': 'texts between [ and ]',
} as const;

const BECAUSE = {
  error: 'it says what is false or impossible, and such a finding stays an error',
  concentrate: 'a concentrate given undiluted is a known cause of harm',
  withholds: 'the results that it withholds would be missing without a reason',
} as const;

/** Said where the default stands in for what was written. */
const STANDS = 'Until it is mended the default stands.';

function among(of: string | null): string {
  return of === null ? 'This policy' : `‘${of}’`;
}

const WORDS: Worded = {
  'formulary-note': ({ path, why }) => ({
    read: `‘${path}’ was read as the path of a note of the formulary.`,
    why: `${REFUSALS[why]} So its fluids are not there for the notes.`,
    mend: 'Write the path from the folder of this policy to a note of the workspace, such as "./formulary.md", with /.',
  }),
  'too-large': ({ most }) => ({
    read: 'This policy is very long.',
    why: `At most ${most} characters are read, and nothing of it is used.`,
    mend: 'Shorten it.',
  }),
  'too-deep': ({ most }) => ({
    read: 'Brackets stand in brackets here.',
    why: `At most ${most} may stand in each other, and nothing of this policy is used.`,
    mend: 'Take the surplus brackets out.',
  }),
  'not-json': ({ line }) => ({
    read: `Line ${line} is not as JSON is written.`,
    why: 'Nothing of this policy is used.',
    mend: 'Look for a comma, a quotation mark or a bracket too many or too few; comments have no place in it.',
  }),
  'duplicate-key': ({ key }) => ({
    read: `‘${key}’ is given a second time.`,
    why: 'Which of the two is meant cannot be known, so the default stands.',
    mend: 'Leave one of them out.',
  }),
  'unknown-key': ({ key, of, near }) => ({
    read: `‘${key}’ was read.`,
    why: `${among(of)} has no such entry, so it sets nothing.`,
    mend: didYouMean(near, 'Look for its name in the documentation of local policy, or leave it out.'),
  }),
  'wrong-type': ({ of, wanted, example }) => ({
    read: of === null ? 'This policy holds something else than entries.' : `‘${of}’ is not written as it must be.`,
    why: `${WANTED[wanted].charAt(0).toUpperCase()}${WANTED[wanted].slice(1)} must stand here.`,
    mend: `${wanted === 'truth' ? 'Write true or false.' : `Write it as in ${example}.`} ${STANDS}`,
  }),
  'unknown-word': ({ of, found, near, words }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: `It can be ${either(words, true)}.`,
    mend: `${didYouMean(near, 'Write one of them.')} ${STANDS}`,
  }),
  'unknown-code': ({ found, near }) => ({
    read: `‘${found}’ was read.`,
    why: 'No finding has that code, so it sets nothing.',
    mend: didYouMean(near, 'Look for the code in the list of findings.'),
  }),
  'unknown-limit': ({ found, near }) => ({
    read: `‘${found}’ was read.`,
    why: 'No limit has that name, so it sets nothing.',
    mend: didYouMean(near, 'Look for its name in the list of limits.'),
  }),
  lowered: ({ of, to, from, because }) => ({
    read: `‘${of}’ is to be taken as ‘${to}’.`,
    why: `It stays at ‘${from}’: ${BECAUSE[because]}.`,
    mend: from === 'error' ? 'Leave the entry out.' : 'Leave the entry out, or raise it.',
  }),
  'no-quantity': ({ of, found, example }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: 'It is not one number with its unit.',
    mend: `Write it as in ${example}. ${STANDS}`,
  }),
  'no-unit': ({ of, found, example }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: 'It has no unit.',
    mend: `Write it as in ${example}. ${STANDS}`,
  }),
  'unknown-unit': ({ of, found, near }) => ({
    read: `‘${found}’ was read as the unit of ‘${of}’.`,
    why: 'No unit is written so.',
    mend: `${didYouMean(near, 'Write a unit that is known.')} ${STANDS}`,
  }),
  'number-form': ({ found, readings }) => ({
    read: `‘${found}’ was read.`,
    why: 'The number can be read in two ways.',
    mend:
      readings.length > 0
        ? `Write ${either(readings, true)}, ${readings.length > 1 ? 'whichever' : 'if that'} is meant. ${STANDS}`
        : `Write digits with at most one decimal point. ${STANDS}`,
  }),
  'wrong-dimension': ({ of, found, got, unit }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: `It ${measures(got)}, and ‘${of}’ is not measured so.`,
    mend: `Write it in ${unit}. ${STANDS}`,
  }),
  'not-above-zero': ({ of, found }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: 'It is not above zero.',
    mend: `Write a number above zero. ${STANDS}`,
  }),
  'above-most': ({ of, found, most }) => ({
    read: `‘${found}’ was read for ‘${of}’.`,
    why: `At most ${formatQuantity(most, '%')} is taken: more would let slips pass that claims are checked for.`,
    mend: `Write a smaller number. ${STANDS}`,
  }),
  'upside-down': ({ from, below }) => ({
    read: `The isotonic range is to run from ${formatQuantity(from, 'mOsm/L')} to below ${formatQuantity(below, 'mOsm/L')}.`,
    why: 'Its lower end does not lie below its upper end.',
    mend: 'Correct the one or the other. Until then the default range stands.',
  }),
  missing: ({ of, what }) => ({
    read: `‘${of}’ is given without ‘${what}’.`,
    why:
      what === 'source'
        ? 'A limit without its source cannot be checked by anyone.'
        : 'Without a number it limits nothing.',
    mend: `Add "${what}". ${STANDS}`,
  }),
  empty: ({ of }) => ({
    read: `An empty text was read for ‘${of}’.`,
    why: 'It says nothing.',
    mend: `Fill it in, or leave the entry out. ${STANDS}`,
  }),
  'too-long': ({ of, most }) => ({
    read: `A long text was read for ‘${of}’.`,
    why: `It has at most ${most} characters.`,
    mend: `Shorten it. ${STANDS}`,
  }),
  'no-date': ({ of, found }) => ({
    read: `‘${found}’ was read as the date of ‘${of}’.`,
    why: 'It is no day of the calendar, written as year, month and day.',
    mend: `Write it as in "2026-03-01". ${STANDS}`,
  }),
};

export const policyInvalid = check({
  code: 'policy-invalid',
  severity: 'error',
  title: 'A local policy that cannot be used as it is written',
  faults: ['policy-invalid'],
  words: (fault) => (WORDS[fault.problem] as (fault: Fault) => Wording)(fault),
  page: `A hospital's own limits and words stand in an \`infusion-policy.json\` ([local policy](../policy.md)). An entry of it
that cannot be read is reported in that file, and the default stands in its place; the other entries are used. Of a file
that is no JSON nothing is used.

A policy cannot make an error less than an error: errors say what is false or impossible. Neither can it lower
\`undiluted-concentrate\`, nor \`ambiguous-name\`, which withholds results.`,
  wrong: [
    { policy: true, block: '{ "region": "UK", «}»' },
    { policy: true, block: '{ "region": "UK", «"region"»: "US" }' },
    { policy: true, block: '{ «"pharmacopeia"»: "USP" }' },
    { policy: true, block: '{ "pharmacopoeia": «"EP"» }' },
    { policy: true, block: '{ "prose": «"yes"» }' },
    { policy: true, block: '{ "free-water-reference": «154» }' },
    { policy: true, block: '{ "free-water-reference": «"154"» }' },
    { policy: true, block: '{ "free-water-reference": «"154 mmols"» }' },
    { policy: true, block: '{ "free-water-reference": «"1,54 mmol/L"» }' },
    { policy: true, block: '{ "isotonic-from": «"250 mmol/L"» }' },
    { policy: true, block: '{ "isotonic-from": «"0 mOsm/L"» }' },
    { policy: true, block: '{ "isotonic-from": "380 mOsm/L", "isotonic-below": «"370 mOsm/L"» }' },
    { policy: true, block: '{ "claim-tolerance": «"50 %"» }' },
    { policy: true, block: '{ "formulary": ["./formulary.md", «"/srv/formulary.md"»] }' },
    { policy: true, block: '{ "severities": { «"volume-aded"»: "off" } }' },
    { policy: true, block: '{ "severities": { "claim-mismatch": «"hint"» } }' },
    { policy: true, block: '{ "severities": { "ambiguous-name": «"off"» } }' },
    {
      policy: true,
      block: '{ "limits": { «"peripheral-osmolality"»: { "limit": "800 mOsm/L", "source": "Formulary" } } }',
    },
    { policy: true, block: '{ "limits": { «"peripheral-osmolarity"»: { "limit": "800 mOsm/L" } } }' },
    {
      policy: true,
      block:
        '{ "limits": { "peripheral-osmolarity": { "limit": "800 mOsm/L", "source": "Formulary", "date": «"1 March 2026"» } } }',
    },
  ],
  right: [
    {
      policy: true,
      block: `{
  "pharmacopoeia": "Ph. Eur.",
  "claim-tolerance": "3 %",
  "severities": { "volume-added": "information" },
  "limits": {
    "peripheral-osmolarity": { "limit": "800 mOsm/L", "source": "Formulary of the hospital", "date": "2026-03-01" }
  }
}`,
    },
  ],
});
