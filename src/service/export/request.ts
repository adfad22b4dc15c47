/** The FHIR MedicationRequest of an order: a draft of a proposal, with when, how fast and by which way. */
import { type Decimal, decimal, exactText, formatQuantity, inUnit, unit } from '../../engine/index.ts';
import type { WorkedOrder } from '../../note/index.ts';
import { Exact, type Json } from '../../render/exact-json.ts';
import type { Resource } from './entries.ts';
import { annotation, clean, concept, list, narrative } from './texts.ts';
import { exact, quantity } from './ucum.ts';

const HOUR = unit('h');
const MINUTES = decimal(60);

/** An hour and more in hours where its digits end, else in minutes. */
interface Time {
  readonly value: Decimal;
  readonly unit: 'h' | 'min';
}

export interface RequestParts {
  readonly medicationReference: Json;
  readonly subject: Json;
  readonly observations: readonly Json[];
  /** Sentences. */
  readonly notes: readonly string[];
}

export function request(order: WorkedOrder, fluid: string, parts: RequestParts): Resource {
  const { medicationReference, subject, observations, notes } = parts;
  const text = dosageText(order, fluid);
  return {
    resourceType: 'MedicationRequest',
    text: narrative([text, ...notes]),
    status: 'draft',
    intent: 'proposal',
    medicationReference,
    subject,
    supportingInformation: list(observations),
    note: notes.map(annotation),
    dosageInstruction: [dosage(order, text)],
  };
}

function dosage(order: WorkedOrder, text: string): Json {
  const { route, rate, monitored } = order;
  const volume = volumeOfRun(order);
  const doseAndRate = {
    doseQuantity: volume ? quantity(volume, 'mL') : undefined,
    rateQuantity: rate ? quantity(rate, 'mL/h') : undefined,
  };
  const instructions = [...(monitored ? ['Monitored'] : []), ...dropsText(order)];
  return {
    sequence: new Exact('1'),
    text: clean(text),
    additionalInstruction: list(instructions.map(concept)),
    timing: timing(order),
    route: route ? concept(route.name) : undefined,
    method: concept(methodText(order)),
    doseAndRate: volume || rate ? [doseAndRate] : undefined,
  };
}

/** Parts, how long each runs, and how far apart they begin. An order that runs until it is stopped has no time. */
function timing(order: WorkedOrder): Json | undefined {
  const { duration, runs, endless } = order;
  const every = everyOf(order);
  const each = duration && timeOf(duration);
  if (!every && !each) return undefined;
  const repeat = {
    count: every && !endless ? new Exact(String(runs.length)) : undefined,
    duration: each ? exact(each.value) : undefined,
    durationUnit: each ? each.unit : undefined,
    frequency: every ? new Exact('1') : undefined,
    period: every ? exact(every.value) : undefined,
    periodUnit: every ? every.unit : undefined,
  };
  return { repeat };
}

/** `300 mL of sodium chloride 3% in 3 parts of 100 mL, one every 10 min, each over 10 min, at 600 mL/h, by peripheral vein.` */
export function dosageText(order: WorkedOrder, fluid: string): string {
  const { rate, route, monitored } = order;
  const told = [
    amountText(order, fluid),
    ...(rate ? [`at ${exactly(rate, 'mL/h')}${doseText(order)}`] : []),
    ...dropsText(order),
    ...(route ? [`by ${route.name}`] : []),
    ...startText(order),
    ...(monitored ? ['monitored'] : []),
  ];
  return `${told.join(', ')}.`;
}

function amountText(order: WorkedOrder, fluid: string): string {
  const { duration, runs, endless, contents } = order;
  const volume = volumeOfRun(order);
  if (!volume || !contents) return `${fluid} until it is stopped`;
  const over = duration ? `over ${timeText(timeOf(duration))}` : 'at once';
  const every = everyOf(order);
  const each = exactly(volume, 'mL');
  if (!every) return `${each} of ${fluid} ${over}`;
  if (endless) return `${each} of ${fluid} every ${timeText(every)} until it is stopped, each ${over}`;
  const all = exactly(contents.volume, 'mL');
  return `${all} of ${fluid} in ${runs.length} parts of ${each}, one every ${timeText(every)}, each ${over}`;
}

/** The figures of its dosage by themselves. */
export function figuresOf(order: WorkedOrder): readonly { item: string; value: Decimal; unit: string }[] {
  const { contents, rate, duration, runs, endless, dose } = order;
  const every = everyOf(order);
  const volume = volumeOfRun(order);
  const figure = (item: string, value: Decimal | null | undefined, of: string) =>
    value ? [{ item, value, unit: of }] : [];
  const time = (item: string, of: Time | null) => (of ? figure(item, of.value, of.unit) : []);
  return [
    ...figure(endless ? 'volume in the first 24 h' : 'volume', contents?.volume, 'mL'),
    ...figure('volume of each part', every && volume, 'mL'),
    ...figure('parts', every && !endless ? decimal(runs.length) : null, '1'),
    ...time('time from part to part', every),
    ...time(every ? 'duration of each part' : 'duration', duration && timeOf(duration)),
    ...figure('rate', rate, 'mL/h'),
    ...figure(dose ? `dose of ${dose.of}` : '', dose?.written.value, dose?.written.unit.symbol ?? ''),
  ];
}

/** ` (0.1 mcg/kg/min of norepinephrine)`. */
function doseText({ dose }: WorkedOrder): string {
  return dose ? ` (${exactly(dose.written.value, dose.written.unit.symbol)} of ${dose.of})` : '';
}

function dropsText({ rate, dropsPerMl }: WorkedOrder): readonly string[] {
  if (!dropsPerMl) return [];
  const speed = rate ? `, ${formatQuantity(rate.times(dropsPerMl).div(MINUTES), 'drops/min')}` : '';
  return [`through a set of ${exactly(dropsPerMl, 'drops/mL')}${speed}`];
}

function startText({ node, runs }: WorkedOrder): readonly string[] {
  const after = node.clauses.find((clause) => clause.kind === 'after');
  if (after?.kind === 'after') return [`after the order ‘${after.name.text}’`];
  const start = runs[0]?.start;
  return start && !start.isZero() ? [`from ${timeText(timeOf(start))} on`] : [];
}

function methodText(order: WorkedOrder): string {
  const pace = order.rate ? 'at a steady rate' : 'at once';
  if (everyOf(order)) return `In parts, each ${pace}`;
  return order.endless ? `${capital(pace)}, until it is stopped` : capital(pace);
}

/** mL of one run; null for an order of which only a rate is written. */
function volumeOfRun(order: WorkedOrder): Decimal | null {
  return order.endless && !everyOf(order) ? null : (order.runs[0]?.contents.volume ?? null);
}

/** From the start of one part to that of the next. */
function everyOf({ node }: WorkedOrder): Time | null {
  const clause = node.clauses.find(({ kind }) => kind === 'every');
  if (clause?.kind !== 'every') return null;
  const { number, unit: of } = clause.time;
  const hours = inUnit({ value: number.value, unit: of.unit }, HOUR);
  return hours && timeOf(hours);
}

function timeOf(hours: Decimal): Time {
  const ends = exactText(hours) === hours.toFixed();
  return hours.lt(1) || !ends ? { value: hours.times(MINUTES), unit: 'min' } : { value: hours, unit: 'h' };
}

function timeText({ value, unit: of }: Time): string {
  return exactly(value, of);
}

function exactly(value: Decimal, of: string): string {
  return `${exactText(value)} ${of}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
