/** The card of an order: what arrives per hour and in all, where it goes, and what was taken. */
import {
  type Contents,
  type Decimal,
  decimal,
  findObservable,
  formatQuantity,
  type Observable,
  times,
  type Unit,
} from '../../engine/index.ts';
import { type OrderScene, type Policy, toldShare, type WorkedOrder } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { assumptionText } from './assumptions.ts';
import { CAUTION } from './caution.ts';
import { acidBase, answerOf, besideMaintenance, besideUsual, leak, quiet, whereItGoes } from './order-effects.ts';
import { sodiumOutlook } from './sodium-outlook.ts';

/** A row of the table, told per hour while it runs and in all. */
interface Row {
  readonly name: string;
  readonly observable: Observable;
  readonly unit: string;
}

const row = (name: string, key: string, unit: string): Row => ({ name, observable: findObservable(key)!, unit });

const ROWS: readonly Row[] = [
  row('volume', 'volume', 'mL'),
  row('electrolyte-free water', 'free water', 'mL'),
  row('sodium', 'sodium', 'mmol'),
  row('potassium', 'potassium', 'mmol'),
  row('chloride', 'chloride', 'mmol'),
  row('dextrose', 'dextrose', 'g'),
  row('energy', 'energy', 'kcal'),
];
const ALWAYS = new Set(['volume', 'free water', 'sodium']);
const FREE_WATER = findObservable('free water')!;
const GLUCOSE_RATE = findObservable('glucose rate')!;
const POTASSIUM_RATE = findObservable('potassium rate')!;

/** Multiples of the dose written, for the table of a drip that is titrated. */
const MULTIPLES = ['0.5', '1', '1.5', '2', '3', '4'].map(decimal);

export function orderCard(
  order: WorkedOrder,
  contents: Contents,
  scene: OrderScene,
  terms: Policy['terms'],
): readonly Tree[] {
  return [
    { kind: 'heading', text: order.name || order.fluid, aside: extentText(order, contents) },
    { kind: 'paragraph', inline: plain(orderSentence(order)) },
    amounts(order, contents, scene),
    ...further(order, scene),
    ...besideUsual(order),
    ...bagLasts(order),
    ...besideMaintenance(order),
    ...doses(order),
    ...whereItGoes(order, contents, scene),
    ...sodiumOutlook(scene),
    ...acidBase(order, scene),
    ...leak(order, contents),
    taken(order, terms),
    CAUTION,
  ];
}

export function withheldOrderCard(order: WorkedOrder, line: number, message: string | null): readonly Tree[] {
  return [
    { kind: 'heading', text: order.name || order.fluid, aside: 'no results' },
    {
      kind: 'paragraph',
      inline: plain(`Nothing is worked out until line ${line} is mended.${message ? ` ${message}` : ''}`),
    },
  ];
}

/** `960 mL over 16 h`. */
export function extentText({ endless, duration, runs }: WorkedOrder, { volume }: Contents): string {
  const amount = formatQuantity(volume, 'mL');
  if (endless) return `${amount} a day`;
  if (runs.length > 1) return `${amount} in ${runs.length} parts`;
  return duration ? `${amount} over ${timeText(duration)}` : `${amount} at once`;
}

/** Hours, or minutes when there is less than one. */
function timeText(hours: Decimal): string {
  return hours.lt(1) ? formatQuantity(hours.times(60), 'min') : formatQuantity(hours, 'h');
}

/** `gastric at 60 mL/h by peripheral vein to ‘adult’.` */
function orderSentence({ fluid, rate, route, patient, runs, monitored, dropsPerMl }: WorkedOrder): string {
  const speed = rate ? ` at ${formatQuantity(rate, 'mL/h')}` : '';
  const drops = rate && dropsPerMl ? ` (${formatQuantity(rate.times(dropsPerMl).div(60), 'drops/min')})` : '';
  const parts = runs.length > 1 ? `, ${runs.length} times` : '';
  const by = route ? ` by ${route.name}` : '';
  const to = patient ? ` to ‘${patient.name}’` : '';
  return `${fluid}${speed}${drops}${parts}${by}${to}${monitored ? ', monitored' : ''}.`;
}

function amounts(order: WorkedOrder, contents: Contents, scene: OrderScene): Tree {
  const perHour = order.rate ? { ...order, ...anHour(order, order.rate) } : null;
  const rows = ROWS.flatMap(({ name, observable, unit: inAll }) => {
    const total = answerOf(order, scene, observable, inAll);
    if (!total || (total.isZero() && !ALWAYS.has(observable.key))) return [];
    const hourly = perHour && answerOf(perHour, scene, observable, inAll);
    const told = (value: Decimal, volume: Decimal) =>
      formatQuantity(observable === FREE_WATER ? toldShare(value, volume) : value, inAll);
    return [[name, hourly && order.rate ? told(hourly, order.rate) : '–', told(total, contents.volume)]];
  });
  return {
    kind: 'table',
    columns: [
      { title: '', align: 'text' },
      { title: 'per hour', align: 'number' },
      { title: order.endless ? 'in 24 h' : `in all (${formatQuantity(contents.volume, 'mL')})`, align: 'number' },
    ],
    rows,
  };
}

/** What runs in during one hour. */
function anHour({ perMl }: WorkedOrder, rate: Decimal): Pick<WorkedOrder, 'contents'> {
  return { contents: perMl && times(perMl, rate) };
}

/** Rates that are told per kg as well, and bags. */
function further(order: WorkedOrder, scene: OrderScene): Tree[] {
  const told = (observable: Observable, symbols: readonly string[]) =>
    symbols.flatMap((symbol) => {
      const found = answerOf(order, scene, observable, symbol);
      return found && !found.isZero() ? [formatQuantity(found, symbol)] : [];
    });
  const potassium = told(POTASSIUM_RATE, ['mmol/h', 'mmol/kg/h']);
  const glucose = told(GLUCOSE_RATE, ['mg/kg/min']);
  const parts = [
    ...(potassium.length > 0 ? [`potassium ${potassium.join(' = ')}`] : []),
    ...(glucose.length > 0 ? [`dextrose ${glucose[0]}`] : []),
    ...(order.bags?.gt(1) ? [`${formatQuantity(order.bags, 'bags')}`] : []),
  ];
  return parts.length > 0
    ? [{ kind: 'paragraph', inline: [{ text: `${capital(parts.join(' · '))}.`, weight: 'strong' }] }]
    : [];
}

function bagLasts({ mixture, rate }: WorkedOrder): Tree[] {
  const volume = mixture?.contents?.volume;
  if (!volume || !rate || volume.div(rate).lt(1)) return [];
  const perDay = rate.times(24).div(volume);
  return [
    quiet(
      `One bag of ${formatQuantity(volume, 'mL')} lasts ${timeText(volume.div(rate))}, ${formatQuantity(perDay, 'bags')} a day.`,
    ),
  ];
}

/** A dose set beside the rate that gives it: arithmetic on what is written, no advice. */
function doses({ dose, rate }: WorkedOrder): Tree[] {
  if (!dose || !rate || !isDoseRate(dose.written.unit)) return [];
  const { value, unit: of } = dose.written;
  return [
    {
      kind: 'table',
      columns: [
        { title: dose.of, align: 'number' },
        { title: 'rate', align: 'number' },
      ],
      rows: MULTIPLES.map((multiple) => [
        formatQuantity(value.times(multiple), of.symbol),
        formatQuantity(rate.times(multiple), 'mL/h'),
      ]),
    },
  ];
}

function isDoseRate({ dimension }: Unit): boolean {
  return dimension.under.includes('time');
}

function taken(order: WorkedOrder, terms: Policy['terms']): Tree {
  return quiet(`Taken: ${takenTexts(order, terms).join('; ')}.`);
}

/** What was assumed without being written. */
export function takenTexts({ assumptions }: WorkedOrder, terms: Policy['terms']): readonly string[] {
  return ['volumes of liquids add', ...assumptions.map((assumption) => assumptionText(assumption, terms))];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
