import { check } from './check.ts';
import { didYouMean } from './wording.ts';

export const unknownRoute = check({
  code: 'unknown-route',
  severity: 'error',
  title: 'A route that is not known',
  faults: ['unknown-route'],
  words: ({ found, near }) => ({
    read: `‘${found}’ was read as a route.`,
    why: 'It is none that is known here, and what an order has to keep to depends on the route, so none is guessed.',
    mend: didYouMean(near, 'Write one such as ‘peripheral vein’, ‘central vein’, ‘feeding tube’ or ‘mouth’.'),
  }),
  page: `Routes are a closed list: a peripheral vein, a central vein, a vein without saying which, the marrow, the mouth, a feeding tube,
under the skin, a muscle, the peritoneum, a dialysis circuit, the bladder, irrigation of a wound, each with its usual names. An
unknown one is never taken for a peripheral vein.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% over 8 h by «periferal vein» to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% over 8 h by peripheral vein to adult',
    },
  ],
});
