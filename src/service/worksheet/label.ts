/** The text of a bag's label: the elements that published standards ask for, each with who asks. */
import {
  type Contents,
  decimal,
  formatQuantity,
  type Limit,
  massOf,
  osmolarity,
  type Particle,
} from '../../engine/index.ts';
import type { Policy, WorkedOrder } from '../../note/index.ts';
import type { SheetBlock } from '../../text/sheet.ts';
import { amountText, countedOtherwise, particlesOf } from '../cards/composition.ts';
import { extentText } from '../cards/order-card.ts';
import { nameInTerms } from '../terms.ts';
import type { Portion } from './portions.ts';

/** What each asks for is told from memory; none of the documents was at hand. */
const STANDARDS = {
  US: 'United States Pharmacopeia, general chapter 797, 2023',
  UK: 'National Patient Safety Agency, patient safety alert 20, 2007',
  AU: 'National standard for user-applied labelling of injectable medicines, fluids and lines, Australia, 2015',
  PN: 'American Society for Parenteral and Enteral Nutrition, safe practices for parenteral nutrition, 2014',
} as const;

const SOURCES = `Asked for by: ${Object.entries(STANDARDS)
  .map(([sign, title]) => `${sign}, ${title}`)
  .join(
    '; ',
  )}. What each asks for is from memory, except the diluent of AU and the rate of PN, which were read in texts that quote them.`;

const LITRE = decimal(1000);

export interface LabelFacts {
  readonly title: string;
  readonly portions: readonly Portion[];
  /** Of one bag. */
  readonly contents: Contents;
  readonly orders: readonly WorkedOrder[];
  readonly policy: Policy;
}

export function labelBlocks({ title, portions, contents, orders, policy }: LabelFacts): readonly SheetBlock[] {
  const routes = orders.map(({ route }) => route?.name ?? '').filter(Boolean);
  const rows = [
    ['Patient: name, date of birth, number', '', 'UK, AU, PN'],
    ['Title', title, '–'],
    ['Contents: amount in the bag (strength)', contentsText(contents, policy), 'US, UK, AU, PN'],
    ['Diluent', diluentOf(portions, contents), 'US, UK, AU'],
    ['Final volume', formatQuantity(contents.volume, 'mL', 4), 'US, UK, AU, PN'],
    ['Osmolarity, calculated', osmolarityText(contents), 'PN'],
    ['Route', [...new Set(routes)].join('; '), 'US, UK, AU, PN'],
    ['Rate', orders.map(rateText).join('; '), 'PN'],
    ['Prepared at: date, time', '', 'UK, AU'],
    ['Use by: date, time', '', 'US, UK, AU, PN'],
    ['Batch or internal number', '', 'US, UK'],
    ['Storage, special handling', '', 'US, PN'],
    ['Prepared by, checked by', '', 'UK, AU'],
  ];
  return [
    {
      kind: 'table',
      columns: ['On the label', 'Text', 'Asked for by'].map((name) => ({ title: name, align: 'text' })),
      rows,
    },
    { kind: 'paragraph', inline: [{ text: SOURCES, weight: 'quiet' }] },
  ];
}

/** Whether it may go by a peripheral vein, by the limit that policy sets; a sentence. */
export function veinSentence(contents: Contents, { limits }: Policy): string {
  const limit = limits.get('peripheral-osmolarity') as Limit;
  const taken = `the limit taken for a peripheral vein, ${formatQuantity(limit.value, limit.unit.symbol)} (${limit.source})`;
  const found = osmolarity(contents);
  const above = found.gt(limit.value);
  const least = isLeast(contents);
  if (least && !above)
    return `Whether the osmolarity is within ${taken}, cannot be said: some of what is in it is not counted.`;
  const disagree = limit.disagree ? ` ${limit.disagree}` : '';
  return above
    ? `The osmolarity is above ${taken}: for a central vein, unless local policy says otherwise.${disagree}`
    : `The osmolarity is within ${taken}.${disagree}`;
}

/** Something in it counts no osmoles, or less than there is. */
function isLeast({ notStated, masses, activities, uncounted }: Contents): boolean {
  return notStated.length + masses.size + activities.size + uncounted.length > 0;
}

function osmolarityText(contents: Contents): string {
  const text = formatQuantity(osmolarity(contents), 'mOsm/L');
  return isLeast(contents) ? `${text} and what is not counted` : text;
}

function contentsText(contents: Contents, { terms }: Policy): string {
  const { volume } = contents;
  const held = particlesOf(contents).map(({ particle, amount }) => {
    const inAll = amountText(amount, particle, terms);
    const strength = amountText(amount.times(LITRE).div(volume), particle, terms);
    return `${nameInTerms(particle.name, terms)} ${inAll}${weightText(particle, contents, terms)}, ${strength} per litre`;
  });
  const others = countedOtherwise(contents).map(
    ({ name, amount, unit }) =>
      `${name} ${formatQuantity(amount, unit)}, ${formatQuantity(amount.times(LITRE).div(volume), unit)} per litre`,
  );
  return [...held, ...others, ...contents.uncounted.map((name) => `${name} (amount not counted)`)].join('; ');
}

/** A molecule is known by its grams: ` (9 g dextrose monohydrate)`. */
function weightText(particle: Particle, { solutes }: Contents, terms: Policy['terms']): string {
  if (particle.charge !== 0) return '';
  const weights = [...solutes].flatMap(([substance, mmol]) => {
    const grams = massOf(substance, { in: 'mmol', value: mmol });
    const only = substance.gives.every((given) => given.particle === particle) && substance.gives.length > 0;
    return grams && only ? [`${formatQuantity(grams, 'g')} ${nameInTerms(substance.name, terms)}`] : [];
  });
  return weights.length > 0 ? ` (${weights.join(', ')})` : '';
}

/** The liquid that makes up more than half of the bag; a blank where there is none. */
function diluentOf(portions: readonly Portion[], { volume }: Contents): string {
  const half = volume.div(2);
  return (
    portions.find(({ action, unit, amount }) => action !== 'withdraw' && unit === 'mL' && amount.gt(half))?.of ?? ''
  );
}

/** `60 mL/h, 960 mL over 16 h (order ‘replacement’)`. */
function rateText(order: WorkedOrder): string {
  const { name, rate, contents } = order;
  const extent = contents ? extentText(order, contents) : '';
  const speed = rate ? `${formatQuantity(rate, 'mL/h')}, ` : '';
  return `${speed}${extent}${name ? ` (order ‘${name}’)` : ''}`;
}
