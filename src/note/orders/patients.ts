/** Reads the lines of a patient. What is not written stays unknown. */
import {
  type Decimal,
  decimal,
  findIon,
  type Ion,
  type Loss,
  type PatientFacts,
  type Serum,
  type Unit,
} from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { PropertyItem, PropertyNode, Span, SyntaxProblem, WordPropertyNode } from '../../notation/ast.ts';
import type { Located } from '../faults.ts';
import type { Entity } from '../model.ts';
import type { WorkedPatient } from '../order-model.ts';
import { type Desk, Reporter, textOf } from '../reporter.ts';

type SerumName = keyof Serum;
type FactName = 'weight' | 'birthWeight' | 'height' | 'age' | 'gestation' | 'bodyWater' | 'baseDeficit' | 'burn';

/** A line that takes one figure: in which units of which dimension, and what is met in life. */
interface Figure {
  readonly fact: FactName | SerumName;
  /** By dimension: times the engine's base unit gives the unit of the facts. */
  readonly units: Readonly<Record<string, Decimal>>;
  readonly fits: readonly string[];
  /** Least and most that is met, in the unit of the facts: common practice, no source. */
  readonly met: readonly [number, number];
  readonly unit: string;
}

const ONE = decimal(1);
const PER_LITRE = decimal(1000);
const HOURS_PER_YEAR = decimal(8766);
const HOURS_PER_WEEK = decimal(168);
const HUNDRED = decimal(100);
/** g/mol. Urea nitrogen is reported as the mass of two atoms of nitrogen in each urea. */
const [GLUCOSE, UREA, UREA_NITROGEN] = ['180.156', '60.056', '28.014'].map(decimal) as [Decimal, Decimal, Decimal];

const perMole = (molarMass: Decimal) => decimal(1_000_000).div(molarMass);
const KILOGRAM = decimal('0.001');

const figure = (
  fact: Figure['fact'],
  unit: string,
  units: Figure['units'],
  fits: readonly string[],
  met: Figure['met'],
): Figure => ({ fact, unit, units, fits, met });

const ION_UNITS = { 'amount/volume': PER_LITRE, 'charge/volume': PER_LITRE };
const ION_FITS = ['mmol/L', 'mEq/L'];

/** By the key of the words before the figure. */
const FIGURES: ReadonlyMap<string, Figure> = new Map([
  ['weight', figure('weight', 'kg', { mass: KILOGRAM }, ['kg'], [0.3, 400])],
  ['birth weight', figure('birthWeight', 'kg', { mass: KILOGRAM }, ['kg', 'g'], [0.3, 8])],
  ['height', figure('height', 'cm', { length: HUNDRED }, ['cm', 'm'], [20, 250])],
  ['length', figure('height', 'cm', { length: HUNDRED }, ['cm', 'm'], [20, 250])],
  ['age', figure('age', 'y', { time: ONE.div(HOURS_PER_YEAR) }, ['y', 'mo', 'wk', 'd'], [0, 125])],
  ['gestation', figure('gestation', 'wk', { time: ONE.div(HOURS_PER_WEEK) }, ['wk'], [20, 45])],
  ['body water', figure('bodyWater', 'L', { volume: decimal('0.001') }, ['L'], [0.2, 200])],
  ['total body water', figure('bodyWater', 'L', { volume: decimal('0.001') }, ['L'], [0.2, 200])],
  ['burn', figure('burn', '% of body surface', { relative: HUNDRED }, ['% of body surface'], [0, 100])],
  ['serum sodium', figure('sodium', 'mmol/L', ION_UNITS, ION_FITS, [90, 210])],
  ['serum potassium', figure('potassium', 'mmol/L', ION_UNITS, ION_FITS, [1, 12])],
  ['serum bicarbonate', figure('bicarbonate', 'mmol/L', ION_UNITS, ION_FITS, [1, 60])],
  ['base deficit', figure('baseDeficit', 'mmol/L', ION_UNITS, ION_FITS, [0, 40])],
  [
    'serum glucose',
    figure(
      'glucose',
      'mmol/L',
      { 'amount/volume': PER_LITRE, 'mass/volume': perMole(GLUCOSE) },
      ['mmol/L', 'mg/dL'],
      [0.5, 150],
    ),
  ],
  [
    'serum urea',
    figure(
      'urea',
      'mmol/L',
      { 'amount/volume': PER_LITRE, 'mass/volume': perMole(UREA) },
      ['mmol/L', 'mg/dL'],
      [0.3, 120],
    ),
  ],
  ['serum urea nitrogen', figure('urea', 'mmol/L', { 'mass/volume': perMole(UREA_NITROGEN) }, ['mg/dL'], [0.3, 120])],
]);

/** The words that take one figure, and the units in which it is written. */
export const PATIENT_LINES: readonly { readonly words: string; readonly fits: readonly string[] }[] = [...FIGURES].map(
  ([words, { fits }]) => ({ words, fits }),
);

/** A line of a patient that takes one figure, by its words. */
export interface PatientFigure {
  /** The same for words that say the same, such as height and length. */
  readonly fact: string;
  readonly fits: readonly string[];
  suits(unit: Unit): boolean;
}

export function patientFigure(key: string): PatientFigure | null {
  const known = FIGURES.get(key);
  if (!known) return null;
  const { fact, fits, units } = known;
  return { fact, fits, suits: (unit) => dimensionKey(unit) in units };
}

/** mL/h of one loss beyond which a figure is taken for a slip: common practice, no source. */
const MOST_LOST = decimal(5000);

export const ONSETS = ['acute', 'chronic', 'unknown'] as const;
export const SEXES = ['female', 'male'] as const;

const UNKNOWN_SERUM: Serum = { sodium: null, potassium: null, glucose: null, urea: null, bicarbonate: null };

/** A patient of whom nothing is known. */
const NOTHING_KNOWN: PatientFacts = {
  weight: null,
  birthWeight: null,
  height: null,
  age: null,
  gestation: null,
  sex: null,
  bodyWater: null,
  serum: UNKNOWN_SERUM,
  baseDeficit: null,
  onset: null,
  demyelinationRisk: false,
  burn: null,
  losses: [],
};

/** Total. A line that cannot be read withholds the patient, and what is worked out with it. */
export function readPatient(entity: Entity, desk: Desk): WorkedPatient {
  return new PatientReader(entity, new Reporter(entity.block, desk)).read();
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** A loss per kg of body weight waits for the weight. */
type OpenLoss = Omit<Loss, 'rate'> & { readonly rate: Decimal; readonly perKilogram: boolean; readonly span: Span };

class PatientReader {
  private readonly facts: Mutable<PatientFacts> = { ...NOTHING_KNOWN };
  private readonly serum: Mutable<Serum> = { ...UNKNOWN_SERUM };
  private readonly losses: OpenLoss[] = [];
  private readonly told = new Set<string>();
  private cause: SourceSpan | null;

  constructor(
    private readonly entity: Entity,
    private readonly report: Reporter,
  ) {
    this.cause = entity.spoiledBy;
  }

  read(): WorkedPatient {
    for (const node of this.entity.body) {
      if (node.kind === 'property') this.property(node);
      else if (node.kind === 'word-property') this.words(node);
      else if (node.kind === 'gives') this.fault(node.span, { code: 'misplaced', where: 'no-line-of-a-patient' });
    }
    const losses = this.losses.flatMap((loss) => this.closed(loss));
    const { entity, cause } = this;
    const name = entity.name?.text ?? '';
    if (cause) return { entity, name, state: 'incomplete', cause, facts: NOTHING_KNOWN };
    return { entity, name, state: 'complete', cause: null, facts: { ...this.facts, serum: this.serum, losses } };
  }

  private property(node: PropertyNode): void {
    const [first, ...more] = node.items;
    const key = first.words.key;
    if (key === 'urine' || key.startsWith('loss ')) {
      this.loss(first, more);
      return;
    }
    const known = FIGURES.get(key);
    if (!known || more.length > 0) {
      this.fault(node.span, { code: 'misplaced', where: 'no-line-of-a-patient' });
      return;
    }
    this.figure(known, first);
  }

  private figure({ fact, units, fits, met, unit }: Figure, { words, quantity }: PropertyItem): void {
    if (this.twice(fact, words.span)) return;
    const factor = units[dimensionKey(quantity.unit.unit)];
    if (!factor) {
      this.cause ??= this.report.dimension(quantity, 'patient-value', words.text, fits).cause;
      return;
    }
    if (quantity.tolerance) {
      this.syntax(quantity.tolerance.span, 'unexpected-rest');
      return;
    }
    const value = quantity.number.value.times(quantity.unit.unit.factor).times(factor);
    if (value.isNegative() || (value.isZero() && met[0] > 0)) {
      this.fault(quantity.span, {
        code: 'fluid',
        problem: 'not-above-zero',
        found: textOf(quantity),
        carriers: [],
      });
      return;
    }
    if (value.lt(met[0]) || value.gt(met[1])) this.unusual(quantity.span, words.text, textOf(quantity), met, unit);
    if (fact in UNKNOWN_SERUM) this.serum[fact as SerumName] = value;
    else this.facts[fact as FactName] = value;
  }

  /** `urine 50 mL/h sodium 60 mmol/L`, `loss stomach 60 mL/h sodium 60 mmol/L chloride 130 mmol/L`. */
  private loss({ words, quantity }: PropertyItem, ions: readonly PropertyItem[]): void {
    if (this.twice(words.key, words.span)) return;
    const { unit } = quantity.unit;
    const key = dimensionKey(unit);
    if (key !== 'volume/time' && key !== 'volume/body-weight/time') {
      this.cause ??= this.report.dimension(quantity, 'patient-value', words.text, ['mL/h', 'mL/kg/h', 'mL/d']).cause;
      return;
    }
    for (const { tolerance } of [quantity, ...ions.map((item) => item.quantity)]) {
      if (tolerance) this.syntax(tolerance.span, 'unexpected-rest');
    }
    const perLitre = new Map<Ion, Decimal>();
    for (const item of ions) {
      const ion = findIon(item.words.key);
      if (!ion) {
        this.fault(item.words.span, { code: 'unknown-name', found: item.words.text, near: [] });
        continue;
      }
      if (perLitre.has(ion)) {
        this.syntax(item.words.span, 'repeated-clause');
        continue;
      }
      const concentration = this.concentration(item, ion);
      if (concentration) perLitre.set(ion, concentration);
    }
    const name = words.key === 'urine' ? 'urine' : words.text.slice('loss '.length);
    const rate = quantity.number.value.times(unit.factor);
    if (rate.isNegative()) {
      this.fault(quantity.span, { code: 'fluid', problem: 'below-zero', found: textOf(quantity), carriers: [] });
      return;
    }
    this.losses.push({ name, rate, perLitre, perKilogram: key !== 'volume/time', span: quantity.span });
  }

  /** mmol/L. */
  private concentration({ words, quantity }: PropertyItem, ion: Ion): Decimal | null {
    const { unit } = quantity.unit;
    const value = quantity.number.value.times(unit.factor).times(PER_LITRE);
    const key = dimensionKey(unit);
    const charge = key === 'charge/volume' && ion.charge !== null ? Math.abs(ion.charge) : null;
    if (value.isNegative()) {
      this.fault(quantity.span, { code: 'fluid', problem: 'below-zero', found: textOf(quantity), carriers: [] });
      return null;
    }
    if (key === 'amount/volume') return value;
    if (charge !== null) return value.div(charge);
    this.cause ??= this.report.dimension(quantity, 'patient-value', words.text, ION_FITS).cause;
    return null;
  }

  private closed({ name, rate, perLitre, perKilogram, span }: OpenLoss): Loss[] {
    const { weight } = this.facts;
    if (perKilogram && !weight && this.told.has('weight')) return [];
    if (perKilogram && !weight) {
      const patient = this.entity.name?.text ?? '';
      this.fault(span, { code: 'missing-patient-value', value: 'weight', patient, wanted: `the loss ‘${name}’` });
      return [];
    }
    const perHour = perKilogram ? rate.times(weight as Decimal) : rate;
    if (perHour.gt(MOST_LOST)) this.unusual(span, name, `${this.text(span)}`, [0, MOST_LOST.toNumber()], 'mL/h');
    return [{ name, rate: perHour, perLitre }];
  }

  /** `sex female`, `onset acute`, `osmotic demyelination risk high`. */
  private words({ words, span }: WordPropertyNode): void {
    const [first, ...rest] = words.key.split(' ');
    const said = rest.join(' ');
    const onset = first === 'onset' ? ONSETS.find((known) => known === said) : undefined;
    const sex = first === 'sex' ? SEXES.find((known) => known === said) : undefined;
    const risk = words.key === 'osmotic demyelination risk high';
    if (!onset && !sex && !risk) {
      this.fault(span, { code: 'misplaced', where: 'no-line-of-a-patient' });
      return;
    }
    if (this.twice(first as string, span)) return;
    if (onset) this.facts.onset = onset;
    else if (sex) this.facts.sex = sex;
    else this.facts.demyelinationRisk = true;
  }

  private twice(key: string, span: Span): boolean {
    if (this.told.has(key)) {
      this.syntax(span, 'repeated-clause');
      return true;
    }
    this.told.add(key);
    return false;
  }

  /** Beyond what is met in life: said, and worked with. */
  private unusual(span: Span, of: string, found: string, met: readonly [number, number], unit: string): void {
    this.report.at(span, {
      code: 'unusual-patient-value',
      of,
      found,
      least: decimal(met[0]),
      most: decimal(met[1]),
      unit,
    });
  }

  private syntax(span: Span, problem: SyntaxProblem): void {
    this.fault(span, { code: 'syntax', span, problem, found: this.text(span) });
  }

  private fault(span: Span, fault: Located['fault']): void {
    const { cause } = this.report.at(span, fault);
    this.cause ??= cause;
  }

  private text({ start, end }: Span): string {
    return this.entity.block.text.slice(start, end);
  }
}

function dimensionKey({ dimension }: Unit): string {
  return [dimension.over, ...dimension.under].join('/');
}
