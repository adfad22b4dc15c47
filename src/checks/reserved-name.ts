import { check } from './check.ts';

const TAKEN = {
  solute: 'a solute',
  unit: 'a unit',
  observable: 'a result that can be asked for',
  ion: 'an ion',
  name: 'the name of something in this note',
} as const;

export const reservedName = check({
  code: 'reserved-name',
  severity: 'error',
  title: 'A name that already means something',
  faults: ['reserved-name', 'name-taken'],
  words(fault) {
    const [found, what] =
      fault.code === 'reserved-name' ? [fault.found, 'a word of the notation'] : [fault.name, TAKEN[fault.by]];
    return {
      read: `‘${found}’ was read as a name.`,
      why: `It is already ${what}, so a line that uses it could be read two ways.`,
      mend: 'Choose another name, such as a longer one that says what is meant.',
    };
  },
  page: `Words of the notation, units, solutes, ions and results cannot be names: a line such as \`10 mL sodium\` must have
one meaning. A name that equals a built-in fluid's is allowed and takes its place in the note.`,
  wrong: [
    { block: 'mixture «sodium»\n  1 L sodium chloride 0.9%' },
    { block: 'mixture «withdraw»\n  1 L sodium chloride 0.9%' },
  ],
  right: [{ block: 'mixture salt-replacement\n  1 L sodium chloride 0.9%' }],
});
