/** Carries out the steps of one mixture. */
import {
  amountOf,
  type Contents,
  type Decimal,
  dryVolume,
  EMPTY,
  inUnit,
  isVolume,
  type MixFault,
  type MixStep,
  mix,
  ONE,
  ofSolute,
  overload,
  plus,
  times,
  unit,
  type WorkingStep,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { AdditionNode, QuantityNode, Span, Statement, Step, UnknownNode } from '../notation/ast.ts';
import {
  type BoundLiquid,
  type BoundSolute,
  FluidBinder,
  quantityOf,
  type Surroundings,
  type Unbound,
} from './fluids.ts';
import type { Entity, WorkedMixture, WorkedStep } from './model.ts';
import { type Desk, Reporter } from './reporter.ts';

/** What one line does to the mixture, and how it was worked out. */
interface BoundStep {
  readonly ok: true;
  readonly step: MixStep;
  readonly brings: Contents | null;
  readonly working: readonly WorkingStep[];
  /** Whether it brings liquid; a mixture of dry solutes alone has no volume to speak of. */
  readonly liquid: boolean;
}

/** Asked for but not solved by this version: the mixture is `unsolved`. */
interface Unsolved {
  readonly ok: 'unsolved';
  readonly cause: SourceSpan;
}

const MILLILITRE = unit('mL');

/** Works out a mixture whose own mixtures have been worked out before. Total; adds what is wrong to the desk's faults. */
export function workMixture(entity: Entity, around: Surroundings, desk: Desk): WorkedMixture {
  const report = new Reporter(entity.block, desk);
  const binder = new FluidBinder(around, report);
  const bound: { node: Step; step: BoundStep }[] = [];
  let cause = entity.spoiledBy;
  let unsolved: SourceSpan | null = null;
  const stepBinder = new StepBinder(binder, report);
  for (const node of entity.body) {
    if (node.kind === 'target') {
      report.at(node.span, { code: 'not-worked-out', what: 'target', found: 'target' });
      continue;
    }
    if (!isStep(node)) continue;
    const step = stepBinder.step(node);
    if (step.ok === true) bound.push({ node, step });
    else if (step.ok === 'unsolved') unsolved ??= step.cause;
    else cause ??= step.cause;
  }
  const withheld = (state: 'incomplete' | 'unsolved', at: SourceSpan): WorkedMixture => ({
    entity,
    name: entity.name?.text ?? '',
    state,
    cause: at,
    contents: null,
    steps: [],
    assumptions: binder.assumptions,
  });
  if (cause) return withheld('incomplete', cause);
  if (unsolved) return withheld('unsolved', unsolved);
  if (!bound.some(({ step }) => step.liquid)) return withheld('incomplete', noVolume(entity, report));

  const mixed = mix(bound.map(({ step }) => step.step));
  if (mixed.fault) return withheld('incomplete', refused(mixed.fault, bound, report));
  if (mixed.contents.volume.lte(0)) return withheld('incomplete', noVolume(entity, report));
  const over = overload(mixed.contents);
  if (over) {
    const line = bound.find(({ step }) => step.brings?.solutes.has(over.substance.id)) ?? bound[bound.length - 1]!;
    return withheld(
      'incomplete',
      report.at(amountSpan(line.node), { code: 'impossible-concentration', overload: over }).cause,
    );
  }
  const steps: WorkedStep[] = mixed.stages.map((stage, index) => ({
    node: bound[index]!.node,
    brings: stage.added,
    before: stage.before,
    after: stage.after,
    working: bound[index]!.step.working,
  }));
  return {
    entity,
    name: entity.name?.text ?? '',
    state: 'complete',
    cause: null,
    contents: mixed.contents,
    steps,
    assumptions: binder.assumptions,
  };
}

export function isStep(node: Statement): node is Step {
  return ['addition', 'by-volume', 'make-up', 'withdraw', 'exchange'].includes(node.kind);
}

function noVolume(entity: Entity, report: Reporter): SourceSpan {
  const name = entity.name?.text ?? '';
  return report.at(entity.name?.span ?? entity.header, { code: 'missing-volume', name }).cause;
}

function refused(fault: MixFault, bound: readonly { node: Step }[], report: Reporter): SourceSpan {
  const node = bound[fault.step]!.node;
  return fault.code === 'withdraw-too-much'
    ? report.at(amountSpan(node), { code: fault.code, asked: fault.asked, held: fault.held }).cause
    : report.at(amountSpan(node), { code: fault.code, held: fault.held, to: fault.to }).cause;
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

class StepBinder {
  constructor(
    private readonly binder: FluidBinder,
    private readonly report: Reporter,
  ) {}

  step(node: Step): BoundStep | Unbound | Unsolved {
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
        const step: MixStep = { kind: 'make-up', perMl: liquid.perMl, to: to.millilitres };
        return { ok: true, step, brings: liquid.perMl, working: liquid.working, liquid: true };
      }
      case 'withdraw': {
        if (node.amount.kind === 'unknown') return this.unsolved(node.amount);
        const volume = this.volume(node.amount, 'volume', 'what is withdrawn');
        if (!volume.ok) return volume;
        return {
          ok: true,
          step: { kind: 'withdraw', volume: volume.millilitres },
          brings: null,
          working: [],
          liquid: false,
        };
      }
      case 'exchange': {
        const liquid = this.binder.liquid(node.fluid);
        if (node.amount.kind === 'unknown') return this.unsolved(node.amount);
        const volume = this.volume(node.amount, 'volume', 'what is exchanged');
        if (!liquid.ok) return liquid;
        if (!volume.ok) return volume;
        const step: MixStep = { kind: 'exchange', volume: volume.millilitres, perMl: liquid.perMl };
        return { ok: true, step, brings: liquid.perMl, working: liquid.working, liquid: true };
      }
    }
  }

  private addition(node: AdditionNode): BoundStep | Unbound | Unsolved {
    const fluid = this.binder.fluid(node.fluid);
    const vehicle = node.vehicle ? this.vehicle(node.vehicle) : null;
    if (node.amount?.kind === 'unknown') return this.unsolved(node.amount);
    if (node.count && !node.count.number) {
      return this.unsolved({ span: node.count.span });
    }
    if (!fluid.ok) return fluid;
    if (vehicle && !vehicle.ok) return vehicle;
    const count = node.count?.number?.value ?? ONE;
    const one = node.amount ? this.amount(node, node.amount, fluid) : this.recipe(node, fluid);
    if (!one.ok) return one;
    const contents = times(one.contents, count);
    if (!vehicle) return added(contents, one.working, one.liquid);
    return added(plus(contents, vehicle.contents), [...one.working, ...vehicle.working], true);
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
    if (node.fluid.parts.some((part) => part.ofSolution)) {
      return this.report.at(amount.span, { code: 'not-worked-out', what: 'weight-of-solution', found: 'of solution' });
    }
    const volume = inUnit(quantityOf(amount), MILLILITRE);
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
    const space = dryVolume(fluid.substance, read.mmol);
    this.binder.assume({ kind: 'dry', substance: fluid.substance, volume: space });
    return { ok: true, contents: ofSolute(fluid.substance, read.mmol, space), working: read.working, liquid: false };
  }

  /** `20 mmol potassium as potassium chloride 2 mmol/mL`: as much of the solution as holds it. */
  private drawn(amount: QuantityNode, fluid: BoundLiquid, solute: BoundSolute): ContentsRead | Unbound {
    const read = this.soluteAmount(amount, solute);
    if (!read.ok) return read;
    const perMl = fluid.perMl.solutes.get(solute.substance.id);
    if (!perMl || perMl.lte(0)) {
      return this.report.dimension(amount, 'amount-of-fluid', fluid.name, ['mL', 'L']);
    }
    const contents = times(fluid.perMl, read.mmol.div(perMl));
    return { ok: true, contents, working: [...read.working, ...fluid.working], liquid: true };
  }

  private soluteAmount(amount: QuantityNode, solute: BoundSolute) {
    const ambiguous = this.binder.ambiguousForm(amount, solute);
    if (ambiguous) return ambiguous;
    const read = amountOf(quantityOf(amount), solute.substance, solute.ion, solute.elemental);
    return read.ok ? read : this.report.amount(amount, solute, read.fault, 'amount-of-solute');
  }

  private volume(node: QuantityNode, wanted: 'volume', of: string): { ok: true; millilitres: Decimal } | Unbound {
    this.report.tolerance(node);
    if (!isVolume(node.unit.unit)) return this.report.dimension(node, wanted, of, ['mL', 'L']);
    return { ok: true, millilitres: inUnit(quantityOf(node), MILLILITRE)! };
  }

  private unsolved(node: UnknownNode | { readonly span: Span }): Unsolved {
    const { cause } = this.report.at(node.span, { code: 'not-worked-out', what: 'unknown-amount', found: '?' });
    return { ok: 'unsolved', cause };
  }
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
