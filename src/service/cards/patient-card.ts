/** The card of a patient: body water, what all the orders bring in a day beside what is usual, deficits. */
import {
  adultMaintenance,
  ageGroup,
  amountOfIon,
  bicarbonateSpace,
  bodyWater,
  burnFluid,
  type Contents,
  type Decimal,
  findIon,
  findObservable,
  formatQuantity,
  maintenance,
  measure,
  type Observable,
  type PatientFacts,
  unit,
  usualIntake,
} from '../../engine/index.ts';
import { answerPatient, intakeOf, type OrderScene, type WorkedPatient } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { CAUTION } from './caution.ts';
import { sodiumOutlook } from './sodium-outlook.ts';

const IONS = ['sodium', 'potassium', 'chloride'] as const;
const DEXTROSE = findObservable('dextrose')!;
/** mmol/L: the lower end of what is usual. */
const LOW_BICARBONATE = 22;
const ENERGY = findObservable('energy')!;
const DERIVED = [
  'free water deficit',
  'bicarbonate deficit',
  'serum osmolality',
  'effective serum osmolality',
  'corrected sodium',
].map((key) => findObservable(key)!);

export function patientCard(patient: WorkedPatient, scene: OrderScene): readonly Tree[] {
  const { facts, entity } = patient;
  return [
    { kind: 'heading', text: entity.title?.text || patient.name, ...asideOf(facts) },
    ...water(facts),
    ...intake(facts, scene),
    ...usual(facts),
    ...derived(facts, scene),
    ...burn(facts),
    ...sodiumOutlook(scene),
    CAUTION,
  ];
}

function asideOf({ weight, age, sex }: PatientFacts): { aside?: string } {
  const parts = [weight ? formatQuantity(weight, 'kg') : '', age ? ageText(age) : '', sex ?? ''].filter(Boolean);
  return parts.length > 0 ? { aside: parts.join(', ') } : {};
}

function ageText(years: Decimal): string {
  if (years.gte(2)) return formatQuantity(years, 'y');
  const months = years.times(12);
  return months.gte(2) ? formatQuantity(months, 'mo') : formatQuantity(years.times('365.25'), 'd');
}

function water(facts: PatientFacts): Tree[] {
  const found = bodyWater(facts);
  if (!found.ok) return [paragraph(`Body water is not estimated: ${found.missing.join(' and ')} not written.`)];
  const within = found.within ? ` ± ${formatQuantity(found.within, 'L', 2)}` : '';
  return [paragraph(`Body water ${formatQuantity(found.litres, 'L')}${within} (${found.source}).`)];
}

/** All that reaches the body in the first 24 h, in all and per kg, beside what is usually given. */
function intake(facts: PatientFacts, scene: OrderScene): Tree[] {
  if (scene.orders.length === 0) return [];
  const given = intakeOf(scene);
  const { weight } = facts;
  const group = ageGroup(facts.age);
  const usualPerKg = group && weight ? usualIntake(group, weight) : null;
  const perKg = (amount: Decimal, symbol: string) => (weight ? formatQuantity(amount.div(weight), symbol) : '–');
  const ions = IONS.map((name) => {
    const amount = amountOfIon(given, findIon(name)!);
    const often = usualPerKg ? `about ${formatQuantity(usualPerKg[name], 'mmol/kg', 2)}` : '–';
    return [name, formatQuantity(amount, 'mmol'), perKg(amount, 'mmol/kg'), often];
  });
  const rows = [
    ['volume', formatQuantity(given.volume, 'mL'), perKg(given.volume, 'mL/kg'), usualWater(facts)],
    ...ions,
    ...sugar(given, perKg, scene),
  ];
  return [
    {
      kind: 'table',
      columns: [
        { title: 'in 24 h, all orders', align: 'text' },
        { title: 'given', align: 'number' },
        { title: 'per kg', align: 'number' },
        { title: 'usually', align: 'number' },
      ],
      rows,
    },
  ];
}

function sugar(
  given: Contents,
  perKg: (amount: Decimal, symbol: string) => string,
  { reference }: OrderScene,
): string[][] {
  return (
    [
      [DEXTROSE, 'g'],
      [ENERGY, 'kcal'],
    ] as const
  ).flatMap(([observable, symbol]) => {
    const found = measure(given, observable, unit(symbol), reference);
    if (!found.ok || found.value.isZero()) return [];
    return [[observable.name, formatQuantity(found.value, symbol), perKg(found.value, `${symbol}/kg`), '–']];
  });
}

/** 4-2-1 and 100-50-20 are of children, and not of the newborn; an adult's go by the kilogram. */
function usualWater(facts: PatientFacts): string {
  const { weight } = facts;
  const group = ageGroup(facts.age);
  if (!weight || !group || group === 'neonate') return '–';
  if (group !== 'adult') return formatQuantity(maintenance(weight).perDay, 'mL');
  const { least, most } = adultMaintenance(weight).water;
  return `${formatQuantity(least, 'mL')} to ${formatQuantity(most, 'mL')}`;
}

function usual(facts: PatientFacts): Tree[] {
  const { weight } = facts;
  const group = ageGroup(facts.age);
  if (!weight) return [quiet('Without a weight nothing is told per kg.')];
  if (!group) return [quiet('Without an age nothing is said of what is usual.')];
  if (group === 'neonate')
    return [quiet('In the first 28 days no maintenance is told: it goes by days of life and by gestation.')];
  const source = usualIntake(group, weight)?.source;
  const { perHour } = maintenance(weight);
  const hourly = group === 'adult' ? '' : `, by 4-2-1 ${formatQuantity(perHour, 'mL/h')}`;
  return [
    quiet(`Usually: routine maintenance of a body of that kind${hourly} (${source}); not a goal for this patient.`),
  ];
}

function derived(facts: PatientFacts, scene: OrderScene): Tree[] {
  const parts = DERIVED.flatMap((observable) => {
    if (!says(observable, facts)) return [];
    const found = answerPatient(scene, facts, observable, unit(observable.unit));
    return found.ok ? [`${observable.name} ${formatQuantity(found.value, observable.unit)}`] : [];
  });
  return [...(parts.length > 0 ? [paragraph(`${capital(parts.join(' · '))}.`)] : []), ...bicarbonateSpaces(facts)];
}

/** The deficit is as large as the space that it is reckoned in, and published spaces differ. */
function bicarbonateSpaces({ serum: { bicarbonate } }: PatientFacts): Tree[] {
  const space = bicarbonate?.lt(LOW_BICARBONATE) ? bicarbonateSpace(bicarbonate) : null;
  if (!space) return [];
  return [
    quiet(
      `The deficit is reckoned in half of the body weight up to 24 mmol/L; another formula gives a space of ${formatQuantity(space, 'L/kg')} here, and in severe acidosis it has been larger than the body: an estimate, to be measured again.`,
    ),
  ];
}

/** A deficit is told where there is one; corrected sodium where glucose is high. */
function says({ kind }: Observable, { serum }: PatientFacts): boolean {
  if (kind === 'free-water-deficit') return Boolean(serum.sodium?.gt(145));
  if (kind === 'corrected-sodium') return Boolean(serum.glucose?.gt(10));
  if (kind === 'bicarbonate-deficit') return !serum.bicarbonate || serum.bicarbonate.lt(LOW_BICARBONATE);
  return true;
}

function burn({ burn: percent, weight }: PatientFacts): Tree[] {
  if (!percent || !weight) return [];
  const { first24Hours, first8Hours, source } = burnFluid(weight, percent);
  const range = ({ least, most }: typeof first24Hours) =>
    `${formatQuantity(least, 'mL')} to ${formatQuantity(most, 'mL')}`;
  return [
    paragraph(
      `Burn of ${formatQuantity(percent, '% of body surface')}: formulas begin at ${range(first24Hours)} in the first 24 h from the burn, ${range(first8Hours)} of it in the first 8 h (${source}); then by urine output.`,
    ),
  ];
}

function paragraph(text: string): Tree {
  return { kind: 'paragraph', inline: plain(text) };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function quiet(text: string): Tree {
  return { kind: 'paragraph', inline: [{ text, weight: 'quiet' }] };
}
