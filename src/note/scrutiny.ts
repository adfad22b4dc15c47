/** What stands out in a mixture once it is worked out: nothing false, but what a second pair of eyes would ask about. */
import {
  amountOfIon,
  atMost,
  type Body,
  type Contents,
  type Decimal,
  decimal,
  effectiveOsmolarity,
  findIon,
  type Ion,
  massOf,
  osmolarity,
  overload,
  type Reference,
  sumOf,
  tonicity,
  ZERO,
} from '../engine/index.ts';
import type { Span } from '../notation/ast.ts';
import type { NoteFault } from './faults.ts';
import type { BlockEdit, WorkedMixture, WorkedStep } from './model.ts';
import type { Reporter } from './reporter.ts';
import { amountSpan } from './steps.ts';
import { smallMasses, thousandfoldFault, usualStrength } from './thousandfold.ts';

/** Volumes that containers are sold in, mL (common practice, no source): what is added to one of them adds to it. */
const CONTAINERS = [50, 100, 150, 250, 500, 1000, 2000, 3000].map(decimal);
/** Additions below this share of the container are passed over, in percent of its volume. */
const ADDED_PERCENT = decimal(5);
/** From this share on an addition is no additive: two fluids are being mixed. */
const MIXED_PERCENT = decimal(50);
const HUNDRED = decimal(100);
/** °C. */
const REFRIGERATOR = decimal(5);
const LITRE = decimal(1000);

/**
 * Calcium and bicarbonate up to what licensed haemofiltration solutions hold together, mmol/L: calcium 1.75 (product
 * characteristics of two-chamber bags, read), bicarbonate 35 (32 read; 35 from memory). With 2.5 mmol/L of calcium
 * crystals were weighed in bicarbonate replacement fluid (Critical Care 2001;5 Suppl 3:P37).
 */
const CALCIUM_WITH_BICARBONATE = decimal('1.75');
const BICARBONATE_WITH_CALCIUM = decimal(35);

export function scrutinise(mixture: WorkedMixture, contents: Contents, reference: Reference, report: Reporter): void {
  thousandfold(mixture, contents, report);
  crystallises(mixture, contents, report);
  volumeAdded(mixture, report);
  withdrawAfterAdding(mixture, report);
  fallsInBody(mixture, contents, reference, report);
  calciumSalts(mixture, contents, report);
}

function thousandfold(mixture: WorkedMixture, contents: Contents, report: Reporter): void {
  for (const small of smallMasses(mixture, contents)) {
    const usual = usualStrength(small);
    if (usual) report.at(small.amount.span, thousandfoldFault(small, { usual, claimed: null }));
  }
}

/** What dissolves at room temperature and not at a refrigerator's. */
function crystallises({ steps }: WorkedMixture, contents: Contents, report: Reporter): void {
  const cold = overload(contents, REFRIGERATOR);
  if (!cold) return;
  const step = steps.find(({ brings }) => brings?.solutes.has(cold.substance)) ?? steps[0]!;
  report.at(amountSpan(step.node), { code: 'may-crystallise', overload: cold });
}

/** Additives put into a full container without making room first. Amounts that were solved for are left alone. */
function volumeAdded({ steps, solved }: WorkedMixture, report: Reporter): void {
  const container = containerOf(steps);
  if (!container || solved.length > 0) return;
  if (steps.some(({ node }) => node.kind === 'make-up')) return;
  const room = sumOf(steps, (step) => (step.brings ? ZERO : step.before.volume.minus(step.after.volume)));
  const mixedFrom = container.volume.times(MIXED_PERCENT).div(HUNDRED);
  const additives = steps.filter((step) => step !== container.step && isAdditive(step, mixedFrom));
  const added = sumOf(additives, gained).minus(room);
  if (atMost(added, container.volume.times(ADDED_PERCENT).div(HUNDRED))) return;
  const [first] = additives;
  const solid = solidAdded(first!, container.volume, added, steps[steps.length - 1]!.after);
  if (solid && additives.length === 1) {
    const madeUp = steps.length === 2 ? madeUpTo(container.step, first!, report) : null;
    report.at(amountSpan(first!.node), { ...solid, madeUp });
    return;
  }
  report.at(amountSpan(first!.node), {
    code: 'volume-added',
    container: container.volume,
    added,
    total: steps[steps.length - 1]!.after.volume,
    makesRoom: steps.indexOf(container.step) < steps.indexOf(first!) && added.lt(container.volume),
  });
}

/** `200 g sodium chloride` and `water to 1 L` for the same two the other way round. */
function madeUpTo(container: WorkedStep, solid: WorkedStep, { block }: Reporter): readonly BlockEdit[] | null {
  const { node } = container;
  if (node.kind !== 'addition' || !node.amount || node.count || node.vehicle) return null;
  if (container.before.volume.gt(0)) return null;
  const written = ({ start, end }: Span) => block.text.slice(start, end);
  return [
    { span: node.span, text: written(solid.node.span) },
    { span: solid.node.span, text: `${written(node.fluid.span)} to ${written(node.amount.span)}` },
  ];
}

/** `500 g dextrose` into a litre is not 50 %: the solid takes up room of its own. */
function solidAdded(
  { node, brings }: WorkedStep,
  container: Decimal,
  space: Decimal,
  after: Contents,
): Omit<Extract<NoteFault, { code: 'solid-added' }>, 'madeUp'> | null {
  if (node.kind !== 'addition' || node.vehicle || node.fluid.parts.some(({ strength }) => strength)) return null;
  const [[substance, mmol] = [], ...more] = [...(brings?.solutes ?? [])];
  const grams = substance && mmol && more.length === 0 ? massOf(substance, { in: 'mmol', value: mmol }) : null;
  if (!substance || !grams) return null;
  const percent = (volume: Decimal) => grams.times(HUNDRED).div(volume);
  const [made, meant] = [percent(after.volume), percent(container)];
  return { code: 'solid-added', substance: substance.family, container, space, made, meant };
}

/** The largest addition, when it is a container's volume. */
function containerOf(steps: readonly WorkedStep[]): { step: WorkedStep; volume: Decimal } | null {
  let largest: { step: WorkedStep; volume: Decimal } | null = null;
  for (const step of steps) {
    if (step.node.kind !== 'addition') continue;
    const volume = gained(step);
    if (!largest || volume.gt(largest.volume)) largest = { step, volume };
  }
  return largest && CONTAINERS.some((volume) => volume.eq(largest.volume)) ? largest : null;
}

/** `mixedFrom`: the volume from which on it is a fluid that is mixed with the container's. */
function isAdditive(step: WorkedStep, mixedFrom: Decimal): boolean {
  const { kind } = step.node;
  return (kind === 'addition' || kind === 'by-volume') && gained(step).lt(mixedFrom);
}

/** mL by which the volume grew. */
function gained({ before, after }: WorkedStep): Decimal {
  return after.volume.minus(before.volume);
}

/** Something taken out after an additive went in takes part of the additive with it. */
function withdrawAfterAdding({ steps }: WorkedMixture, report: Reporter): void {
  const additions = (before: number) => steps.slice(0, before).filter(({ node }) => node.kind === 'addition').length;
  const at = steps.findIndex(({ node }, index) => takesOut(node.kind) && additions(index) > 1);
  if (at >= 0) report.at(amountSpan(steps[at]!.node), { code: 'withdraw-after-adding' });
}

function takesOut(kind: WorkedStep['node']['kind']): boolean {
  return kind === 'withdraw' || kind === 'exchange';
}

const [CALCIUM, BICARBONATE, PHOSPHATE] = ['calcium', 'bicarbonate', 'phosphate'].map((name) => findIon(name)!) as [
  Ion,
  Ion,
  Ion,
];
const RANK = { hypotonic: 0, isotonic: 1, hypertonic: 2 } as const;

function fallsInBody({ entity }: WorkedMixture, contents: Contents, reference: Reference, report: Reporter): void {
  const [bag, body] = [osmolarity(contents), effectiveOsmolarity(contents)];
  const [inBag, inBody] = [tonicity(bag, reference), tonicity(body, reference)];
  if (RANK[inBody] >= RANK[inBag]) return;
  report.at(entity.name?.span ?? entity.header, {
    code: 'tonicity-falls-in-body',
    used: leaving(contents, 'becomes water'),
    crossing: leaving(contents, 'crosses cells'),
    bag,
    body,
    inBag,
    inBody,
  });
}

/** What of a fluid does not stay outside cells: its solutes, or the particles of a label that names none. */
function leaving({ solutes, particles }: Contents, body: Body): readonly string[] {
  const families = [...solutes.keys()]
    .filter(({ gives }) => gives.some(({ particle }) => particle.body === body))
    .map(({ family }) => family);
  const names = [...particles.keys()].filter((particle) => particle.body === body).map(({ name }) => name);
  return [...new Set(families.length > 0 ? families : names)];
}

/** Calcium beside bicarbonate or phosphate. No rule of a product of concentrations: validated curves are needed. */
function calciumSalts({ entity }: WorkedMixture, contents: Contents, report: Reporter): void {
  if (amountOfIon(contents, CALCIUM).isZero()) return;
  const [calcium, bicarbonate, phosphate] = [CALCIUM, BICARBONATE, PHOSPHATE].map((ion) =>
    amountOfIon(contents, ion).times(LITRE).div(contents.volume),
  ) as [Decimal, Decimal, Decimal];
  const at = entity.name?.span ?? entity.header;
  const known = atMost(calcium, CALCIUM_WITH_BICARBONATE) && atMost(bicarbonate, BICARBONATE_WITH_CALCIUM);
  if (!bicarbonate.isZero() && !known) report.at(at, { code: 'calcium-bicarbonate', calcium, bicarbonate });
  if (!phosphate.isZero()) report.at(at, { code: 'calcium-phosphate', calcium, phosphate });
}
