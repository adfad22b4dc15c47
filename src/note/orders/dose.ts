/** Amounts and rates of an order, in mL and mL/h: of the fluid itself, or of something in it. */
import {
  type Base,
  type Contents,
  type Decimal,
  findObservable,
  ionObservable,
  isRate,
  measure,
  type Observable,
  type Substance,
  soluteObservable,
  type Unit,
  unit,
} from '../../engine/index.ts';
import type { Clause, GiveNode, QuantityNode, Words } from '../../notation/ast.ts';
import { reportUnmeasured } from '../asked-number.ts';
import type { BoundLiquid, Surroundings, Unbound } from '../fluids.ts';
import type { Dose, WorkedPatient } from '../order-model.ts';
import { type Reporter, textOf } from '../reporter.ts';

/** The engine's base unit of what a dose counts. */
const BASES: Readonly<Partial<Record<string, Unit>>> = {
  mass: unit('g'),
  amount: unit('mmol'),
  charge: unit('mEq'),
  activity: unit('units'),
};
const AMOUNT_FITS = ['mL', 'mL/kg', 'g', 'mmol'];
const RATE_FITS = ['mL/h', 'mL/kg/h', 'mg/h', 'mcg/kg/min', 'mmol/h', 'drops/min'];

export interface Told {
  readonly ok: true;
  /** mL, or mL/h for a rate. */
  readonly value: Decimal;
  /** What it counts, when that is not the fluid itself. */
  readonly dose: Dose | null;
}

/** Reads the amount and the rate of one order. */
export class DoseReader {
  constructor(
    private readonly node: GiveNode,
    private readonly fluid: BoundLiquid,
    private readonly patient: WorkedPatient | null,
    private readonly dropsPerMl: Decimal | null,
    private readonly around: Pick<Surroundings, 'own' | 'policy'>,
    private readonly report: Reporter,
  ) {}

  amount(quantity: QuantityNode): Told | Unbound {
    const { unit: of } = quantity.unit;
    if (isRate(of) || of.percent) return this.report.dimension(quantity, 'order-amount', 'an order', AMOUNT_FITS);
    return this.told(quantity, AMOUNT_FITS, 'order-amount');
  }

  rate(quantity: QuantityNode): Told | Unbound {
    const { unit: of } = quantity.unit;
    if (of.dimension.over === 'drops' && of.dimension.under.join() === 'time') return this.drops(quantity);
    return this.told(quantity, RATE_FITS, 'order-rate');
  }

  private told(quantity: QuantityNode, fits: readonly string[], wanted: 'order-amount' | 'order-rate'): Told | Unbound {
    const { over, under } = quantity.unit.unit.dimension;
    const others = under.filter((base) => base !== 'time' && base !== 'body-weight');
    const base = BASES[over];
    if (others.length > 0 || (over !== 'volume' && !base)) {
      return this.report.dimension(quantity, wanted, 'an order', fits);
    }
    const value = this.forTheBody(quantity);
    if (!value.ok) return value;
    if (over === 'volume') return { dose: null, ...value };
    const dose = this.dose(quantity, base as Unit);
    return 'ok' in dose ? dose : { ok: true, value: value.value.div(dose.perMl), dose };
  }

  /** In base units, and per hour for a rate, times the body weight where it is per kg. */
  private forTheBody(quantity: QuantityNode): { ok: true; value: Decimal } | Unbound {
    const { value } = quantity.number;
    const { factor, dimension } = quantity.unit.unit;
    const plain = value.times(factor);
    if (!dimension.under.includes('body-weight')) return { ok: true, value: plain };
    const { patient } = this;
    const weight = patient?.facts.weight;
    if (weight) return { ok: true, value: plain.times(weight) };
    if (patient?.cause ?? (!patient && this.says('patient'))) return this.withheld(quantity);
    return this.report.at(quantity.span, {
      code: 'missing-patient-value',
      value: 'weight',
      patient: patient?.name ?? '',
      wanted: textOf(quantity),
    });
  }

  /** A clause that is written, whatever is wrong with it: that is reported where it stands. */
  private says(kind: Clause['kind']): boolean {
    return this.node.clauses.some((clause) => clause.kind === kind);
  }

  private withheld({ span }: QuantityNode): Unbound {
    return { ok: false, cause: this.report.place(span) };
  }

  private drops(quantity: QuantityNode): Told | Unbound {
    const { dropsPerMl } = this;
    const perHour = quantity.number.value.times(quantity.unit.unit.factor);
    if (dropsPerMl) return { ok: true, value: perHour.div(dropsPerMl), dose: null };
    if (this.says('set')) return this.withheld(quantity);
    return this.report.at(quantity.span, { code: 'drops-without-set', found: textOf(quantity) });
  }

  /** What a dose counts, and how much of it is in 1 mL. */
  private dose(quantity: QuantityNode, base: Unit): Dose | Unbound {
    const { rateOf } = this.node;
    const asked = rateOf ? this.named(rateOf) : this.only(quantity, base);
    if ('ok' in asked) return asked;
    const measured = measure(this.fluid.perMl, asked, base, this.around.policy.reference);
    const { span } = quantity;
    if (!measured.ok && measured.problem === 'elemental-or-salt') {
      return this.otherwise(quantity, ['mmol'], [`the same of elemental ${asked.name}`]);
    }
    const only = asked.substance && this.onlyIn(asked.substance);
    if (only && only.base !== base.dimension.over) return this.otherwise(quantity, only.fits);
    if (!measured.ok) {
      reportUnmeasured(this.report, { span, text: textOf(quantity) }, asked, measured);
      return { ok: false, cause: this.report.place(span) };
    }
    if (measured.value.lte(0)) return this.noSolute(rateOf?.span ?? span, rateOf?.text ?? textOf(quantity));
    const { substance, ion, name: of } = asked;
    const written = { value: quantity.number.value, unit: quantity.unit.unit };
    return { written, of, substance, ion, perMl: measured.value };
  }

  /** What is declared by its mass or its units alone, which are never converted: the one that the fluid holds it by. */
  private onlyIn(substance: Substance): { readonly base: Base; readonly fits: readonly string[] } | null {
    const { masses, activities } = this.fluid.perMl;
    if (activities.has(substance)) return masses.has(substance) ? null : { base: 'activity', fits: ['units'] };
    return masses.has(substance) ? { base: 'mass', fits: ['mg', 'mcg'] } : null;
  }

  private otherwise(quantity: QuantityNode, units: readonly string[], more: readonly string[] = []): Unbound {
    const asRate = isRate(quantity.unit.unit);
    const fits = asRate ? units.map((symbol) => `${symbol}/h`) : units;
    return this.report.dimension(quantity, asRate ? 'order-rate' : 'order-amount', 'an order', [...fits, ...more]);
  }

  private named(words: Words): Observable | Unbound {
    const found = this.around.own.observable(words.key) ?? findObservable(words.key, this.around.policy.pharmacopoeia);
    if (found && (found.kind === 'ion' || found.kind === 'solute')) return found;
    const cause = this.around.own.withheld(words.key, words.span, this.report);
    return cause ? { ok: false, cause } : this.noSolute(words.span, words.text);
  }

  /** The one thing it can count: the solute behind it, the ion that is named, the only solute, the only thing in units. */
  private only(quantity: QuantityNode, base: Unit): Observable | Unbound {
    const { drawn, perMl } = this.fluid;
    const held = solutesOf(perMl);
    const counted = base.symbol === 'units' ? [...perMl.activities.keys()] : held;
    // ‘20 mmol potassium chloride 40 mmol/L in …’ counts the solute that it stands before, as a step of a mixture does.
    const before = quantity.span.end <= this.node.fluid.span.start;
    if (before && drawn && !drawn.ion && held.includes(drawn.substance)) return soluteObservable(drawn.substance);
    if (counted.length !== 1) return this.noSolute(quantity.span, textOf(quantity));
    if (drawn?.ion) return { ...ionObservable(drawn.ion), elemental: drawn.elemental };
    return soluteObservable(counted[0] as Substance);
  }

  private noSolute(span: QuantityNode['span'], found: string): Unbound {
    const solutes = solutesOf(this.fluid.perMl).map(({ family }) => family);
    return this.report.at(span, { code: 'dose-names-no-solute', found, solutes: [...new Set(solutes)] });
  }
}

/** Everything dissolved in it, water itself left out. */
function solutesOf({ solutes, masses, activities }: Contents): readonly Substance[] {
  const all = [...solutes, ...masses, ...activities].filter(([{ id }, amount]) => id !== 'water' && !amount.isZero());
  return [...new Set(all.map(([substance]) => substance))];
}
