import { check } from './check.ts';

export const tooFewTargets = check({
  code: 'too-few-targets',
  severity: 'error',
  title: 'More amounts asked for than targets given',
  faults: ['too-few-targets'],
  words: ({ unknowns, targets }) => ({
    read: `${unknowns === 1 ? 'One amount is' : `${unknowns} amounts are`} asked for, and ${targets === 0 ? 'no target is' : targets === 1 ? 'one target is' : `${targets} targets are`} given.`,
    why: 'Each unknown amount needs a target of its own.',
    mend: 'Add a line such as: target sodium 513 mmol/L.',
  }),
  page: `An amount written as \`?\` is worked out from what the mixture is to come to. One unknown needs one target, two need
two. Targets beyond that number are checked as claims.`,
  wrong: [{ block: 'mixture bag\n  «? mL» sodium chloride 23.4%\n  water to 500 mL' }],
  right: [{ block: 'mixture bag\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L' }],
});
