/** Binds the lines of one mixture to what they do, one by one, and counts the amounts still to be solved for. */
import {
  amountOf,
  type Contents,
  DEFAULT_REFERENCE,
  type Decimal,
  dryVolume,
  EMPTY,
  findObservable,
  held,
  inUnit,
  isVolume,
  measure,
  ONE,
  type OpenStep,
  ofSolute,
  plus,
  times,
  type Unit,
  unit,
  type WorkingStep,
} from '../engine/index.ts';
import type { AdditionNode, QuantityNode, Span, Statement, Step, UnknownNode } from '../notation/ast.ts';
import type { Choices } from './choices.ts';
import type { BoundLiquid, BoundSolute, FluidBinder, Unbound } from './fluids.ts';
import type { Reporter } from './reporter.ts';

/** What one line does to the mixture, and how it was worked out. */
export interface BoundStep {
  readonly ok: true;
  readonly step: OpenStep;
  /** What the line brings, or a unit of what it brings when its amount is unknown; null for a withdrawal. */
  readonly brings: Contents | null;
  readonly working: readonly WorkingStep[];
  /** Whether it brings liquid; a mixture of dry solutes alone has no volume to speak of. */
  readonly liquid: boolean;
}

/** An amount to be solved for; its index is that of the engine's unknown. */
export interface BoundUnknown {
  readonly span: Span;
  readonly line: number;
  /** The unit written after `?`, or null for a count (`? x 50 mL`). */
  readonly unit: Unit | null;
}

const MILLILITRE = unit('mL');
const GRAM = unit('g');
const GRAM_PER_ML = unit('g/mL');
const DENSITY = findObservable('density')!;

export function isStep(node: Statement): node is Step {
  return ['addition', 'by-volume', 'make-up', 'withdraw', 'exchange'].includes(node.kind);
}

/** The number that decides what the line does. */
export function amountSpan(node: Step): Span {
  switch (node.kind) {
    case 'addition':
      return node.amount?.span ?? node.fluid.span;
    case 'by-volume':
      return node.volume.span;
    case 'make-up':
      return node.to.span;
    case 'withdraw':
    case 'exchange':
      return node.amount.span;
  }
}

export class StepBinder {
  readonly unknowns: BoundUnknown[] = [];

  constructor(
    private readonly binder: FluidBinder,
    private readonly choices: Choices,
    private readonly report: Reporter,
  ) {}

  step(node: Step): BoundStep | Unbound {
    switch (node.kind) {
      case 'addition':
        return this.addition(node);
      case 'by-volume': {
        const volume = this.volume(node.volume, 'volume', node.label.text);
        if (!volume.ok) return volume;
        this.binder.assume({ kind: 'uncounted', label: node.label.text });
        const contents = { ...EMPTY, volume: volume.millilitres, uncounted: [node.label.text] };
        return added(contents, [], true);
      }
      case 'make-up': {
        const liquid = this.binder.liquid(node.fluid);
        const to = this.volume(node.to, 'volume', 'the final volume');
        if (!liquid.ok) return liquid;
        if (!to.ok) return to;
        const step: OpenStep = { kind: 'make-up', perMl: liquid.perMl, to: to.millilitres };
        return { ok: true, step, brings: liquid.perMl, working: liquid.working, liquid: true };
      }
      case 'withdraw': {
        const early = this.afterUnknown(node.span);
        const volume = this.openVolume(node.amount, node.line, 'what is withdrawn');
        if (early) return early;
        if (!volume.ok) return volume;
        const step: OpenStep =
          volume.millilitres === null
            ? { kind: 'withdraw-unknown', unknown: this.unknowns.length - 1 }
            : { kind: 'withdraw', volume: volume.millilitres };
        return { ok: true, step, brings: null, working: [], liquid: false };
      }
      case 'exchange': {
        const early = this.afterUnknown(node.span);
        const liquid = this.binder.liquid(node.fluid);
        const volume = this.openVolume(node.amount, node.line, 'what is exchanged');
        if (early) return early;
        if (!liquid.ok) return liquid;
        if (!volume.ok) return volume;
        const { perMl } = liquid;
        const step: OpenStep =
          volume.millilitres === null
            ? { kind: 'exchange-unknown', unknown: this.unknowns.length - 1, perMl }
            : { kind: 'exchange', volume: volume.millilitres, perMl };
        return { ok: true, step, brings: perMl, working: liquid.working, liquid: true };
      }
    }
  }

  /** Taking out of what is not yet known is no linear matter: two amounts may then be right. */
  private afterUnknown(span: Span): Unbound | null {
    return this.unknowns.length > 0 ? this.report.at(span, { code: 'withdraw-after-unknown' }) : null;
  }

  private addition(node: AdditionNode): BoundStep | Unbound {
    const measured = node.amount?.unit.unit;
    const fluid = this.binder.fluid(node.fluid, measured !== undefined && !isVolume(measured));
    const vehicle = node.vehicle ? this.vehicle(node.vehicle) : null;
    if (!fluid.ok) return fluid;
    if (vehicle && !vehicle.ok) return vehicle;
    const open = node.amount?.kind === 'unknown' ? node.amount : null;
    const howMany = node.count && !node.count.number ? node.count : null;
    if (open && howMany) return this.report.at(howMany.span, { code: 'two-unknowns' });
    const amount = open ? oneOf(open) : (node.amount as QuantityNode | null);
    const one = amount ? this.amount(node, amount, fluid) : this.recipe(node, fluid);
    if (!one.ok) return one;
    const contents = times(one.contents, node.count?.number?.value ?? ONE);
    if (!open && !howMany) {
      if (!vehicle) return added(contents, one.working, one.liquid);
      return added(plus(contents, vehicle.contents), [...one.working, ...vehicle.working], true);
    }
    if (vehicle) return this.report.at((open ?? howMany)!.span, { code: 'unknown-in-vehicle' });
    this.unknowns.push({ span: (open ?? howMany)!.span, line: node.line, unit: open?.unit.unit ?? null });
    const step: OpenStep = { kind: 'add-unknown', unknown: this.unknowns.length - 1, perUnit: contents };
    return { ok: true, step, brings: contents, working: [], liquid: one.liquid };
  }

  private vehicle(node: NonNullable<AdditionNode['vehicle']>): ContentsRead | Unbound {
    const liquid = this.binder.liquid(node.fluid);
    const volume = this.volume(node.volume, 'volume', 'the vehicle');
    if (!liquid.ok) return liquid;
    if (!volume.ok) return volume;
    return { ok: true, contents: times(liquid.perMl, volume.millilitres), working: liquid.working, liquid: true };
  }

  /** `2 x gastric`: that many whole recipes. */
  private recipe(node: AdditionNode, fluid: BoundSolute | BoundLiquid): ContentsRead | Unbound {
    if (fluid.kind === 'liquid' && fluid.recipe) return { ok: true, contents: fluid.recipe, working: [], liquid: true };
    const { words } = node.fluid.parts[0];
    return this.report.at(node.fluid.span, {
      code: 'fluid',
      problem: 'recipes-of-no-mixture',
      found: words.text,
      carriers: [],
    });
  }

  private amount(node: AdditionNode, amount: QuantityNode, fluid: BoundSolute | BoundLiquid): ContentsRead | Unbound {
    this.report.tolerance(amount);
    if (node.fluid.parts.some((part) => part.ofSolution)) return this.weighed(amount, fluid);
    const volume = inUnit(this.choices.quantity(amount), MILLILITRE);
    if (fluid.kind === 'liquid') {
      if (volume) return { ok: true, contents: times(fluid.perMl, volume), working: fluid.working, liquid: true };
      if (!fluid.drawn) return this.report.dimension(amount, 'amount-of-fluid', fluid.name, ['mL', 'L']);
      return this.drawn(amount, fluid, fluid.drawn);
    }
    if (volume) return this.report.dimension(amount, 'amount-of-solute', fluid.words.text, ['g', 'mmol']);
    if (node.fluid.parts.length > 1)
      return this.report.dimension(amount, 'amount-of-fluid', fluid.words.text, ['mL', 'L']);
    const read = this.soluteAmount(amount, fluid);
    if (!read.ok) return read;
    const space = dryVolume(fluid.substance, read.amount);
    this.binder.assume({ kind: 'dry', substance: fluid.substance, volume: space });
    return { ok: true, contents: ofSolute(fluid.substance, read.amount, space), working: read.working, liquid: false };
  }

  /** `4 g of solution sodium chloride 23.4%`: its volume by its estimated density. */
  private weighed(amount: QuantityNode, fluid: BoundSolute | BoundLiquid): ContentsRead | Unbound {
    const grams = inUnit(this.choices.quantity(amount), GRAM);
    if (!grams) return this.report.dimension(amount, 'weight', 'the solution', ['g', 'kg']);
    if (fluid.kind !== 'liquid') {
      return this.report.at(fluid.words.span, {
        code: 'fluid',
        problem: 'missing-strength',
        found: fluid.words.text,
        carriers: [],
      });
    }
    const weight = measure(fluid.perMl, DENSITY, GRAM_PER_ML, DEFAULT_REFERENCE);
    if (!weight.ok) return this.report.at(amount.span, { code: 'no-estimate', observable: 'density', why: 'no-water' });
    this.binder.assume({ kind: 'by-weight', fluid: fluid.name, gramsPerMl: weight.value });
    return { ok: true, contents: times(fluid.perMl, grams.div(weight.value)), working: fluid.working, liquid: true };
  }

  /** `20 mmol potassium as potassium chloride 2 mmol/mL`: as much of the solution as holds it. */
  private drawn(amount: QuantityNode, fluid: BoundLiquid, solute: BoundSolute): ContentsRead | Unbound {
    const read = this.soluteAmount(amount, solute);
    if (!read.ok) return read;
    const perMl = held(fluid.perMl, solute.substance, read.amount.in);
    if (perMl.lte(0)) {
      return this.report.dimension(amount, 'amount-of-fluid', fluid.name, ['mL', 'L']);
    }
    const contents = times(fluid.perMl, read.amount.value.div(perMl));
    return { ok: true, contents, working: [...read.working, ...fluid.working], liquid: true };
  }

  private soluteAmount(amount: QuantityNode, solute: BoundSolute) {
    const ambiguous = this.binder.ambiguousForm(amount, solute);
    if (ambiguous) return ambiguous;
    const read = amountOf(this.choices.quantity(amount), solute.substance, solute.ion, solute.elemental);
    return read.ok ? read : this.report.amount(amount, solute, read.fault, 'amount-of-solute');
  }

  private volume(node: QuantityNode, wanted: 'volume', of: string): { ok: true; millilitres: Decimal } | Unbound {
    this.report.tolerance(node);
    if (!isVolume(node.unit.unit)) return this.report.dimension(node, wanted, of, ['mL', 'L']);
    return { ok: true, millilitres: inUnit(this.choices.quantity(node), MILLILITRE)! };
  }

  /** A volume, or null for one to be solved for, which then counts among the unknowns. */
  private openVolume(
    node: QuantityNode | UnknownNode,
    line: number,
    of: string,
  ): { ok: true; millilitres: Decimal | null } | Unbound {
    if (node.kind === 'quantity') return this.volume(node, 'volume', of);
    if (!isVolume(node.unit.unit)) return this.report.dimension(oneOf(node), 'volume', of, ['mL', 'L']);
    this.unknowns.push({ span: node.span, line, unit: node.unit.unit });
    return { ok: true, millilitres: null };
  }
}

/** One unit of an amount to be solved for. */
function oneOf(node: UnknownNode): QuantityNode {
  const number = { span: node.span, text: '?', value: ONE, decimals: null };
  return { kind: 'quantity', span: node.span, number, unit: node.unit, tolerance: null };
}

interface ContentsRead {
  readonly ok: true;
  readonly contents: Contents;
  readonly working: readonly WorkingStep[];
  readonly liquid: boolean;
}

function added(contents: Contents, working: readonly WorkingStep[], liquid: boolean): BoundStep {
  return { ok: true, step: { kind: 'add', contents }, brings: contents, working, liquid };
}
