/** What a mixture's lines ask a person to measure, one portion after the other. */
import {
  amountOf,
  type Decimal,
  inUnit,
  type Measurable,
  massOf,
  measurable,
  ONE,
  type Quantity,
  type Substance,
  unit,
} from '../../engine/index.ts';
import type { AdditionNode, FluidNode, Span } from '../../notation/ast.ts';
import type { Mention, Solved, WorkedMixture, WorkedNoteModel, WorkedStep } from '../../note/index.ts';
import type { Scale } from './size.ts';

export interface Portion {
  readonly action: 'add' | 'make up' | 'withdraw';
  /** The fluid or solute as written; null for what is withdrawn. */
  readonly of: string | null;
  /** Of each bag, in `unit`. */
  readonly amount: Decimal;
  readonly unit: 'mL' | 'g' | 'units';
  /** Whether the note writes this very amount; else it was worked out. */
  readonly written: boolean;
  /** The nearest that can be measured of an amount that was worked out; null where nothing measures it. */
  readonly measured: Measurable | null;
  /** `3 x 10 mL`: how many of what size; the size of whole recipes is null. */
  readonly containers: { readonly count: Decimal; readonly each: Quantity | null } | null;
  /** What an amount was drawn for: the 20 mmol that 10 mL hold, the grams that a volume weighs. */
  readonly holds: Quantity | null;
  /** A mixture of the note, made up by its own worksheet. */
  readonly madeBefore: boolean;
  readonly solved: Solved | null;
  /** mL in the bag afterwards. */
  readonly leaves: Decimal;
}

const MILLILITRE = unit('mL');

export function portionsOf(mixture: WorkedMixture, model: WorkedNoteModel, scale: Scale): readonly Portion[] {
  return mixture.steps.flatMap((step) => new PortionReader(mixture, model, scale, step).portions());
}

class PortionReader {
  private readonly solved: Solved | null;

  constructor(
    private readonly mixture: WorkedMixture,
    private readonly model: WorkedNoteModel,
    private readonly scale: Scale,
    private readonly step: WorkedStep,
  ) {
    this.solved = mixture.solved.find(({ line }) => line === step.node.line) ?? null;
  }

  portions(): readonly Portion[] {
    const { node, before, after, brings } = this.step;
    const volume = brings?.volume ?? before.volume.minus(after.volume);
    switch (node.kind) {
      case 'addition':
        return this.addition(node, volume);
      case 'by-volume':
        return [this.portion({ of: node.label.text, amount: volume, written: true })];
      case 'make-up':
        return [this.portion({ action: 'make up', of: this.textOf(node.fluid.span), amount: volume, written: false })];
      case 'withdraw':
        return [this.withdrawal(volume, after.volume)];
      case 'exchange':
        return [
          this.withdrawal(volume, before.volume.minus(volume)),
          this.portion({
            of: this.textOf(node.fluid.span),
            amount: volume,
            written: !this.solved,
            madeBefore: this.isMadeBefore(node.fluid),
          }),
        ];
    }
  }

  private withdrawal(amount: Decimal, leaves: Decimal): Portion {
    return this.portion({
      action: 'withdraw',
      of: null,
      amount,
      written: !this.solved,
      leaves: this.scale.amount(leaves),
    });
  }

  private addition(node: AdditionNode, volume: Decimal): readonly Portion[] {
    const { vehicle } = node;
    if (!vehicle) return [this.ingredient(node, volume)];
    const { unit: of, number } = vehicle.volume;
    const inVehicle = inUnit({ value: number.value, unit: of.unit }, MILLILITRE) ?? volume;
    const first = this.portion({
      of: this.textOf(vehicle.fluid.span),
      amount: inVehicle,
      written: true,
      madeBefore: this.isMadeBefore(vehicle.fluid),
      solved: null,
      leaves: this.scale.amount(this.step.before.volume.plus(inVehicle)),
    });
    return [first, this.ingredient(node, volume.minus(inVehicle))];
  }

  /** What an addition names first, its vehicle left out; `volume` in mL. */
  private ingredient(node: AdditionNode, volume: Decimal): Portion {
    const count = node.count ? (node.count.number?.value ?? this.solved?.value ?? ONE) : null;
    const of = this.textOf(node.fluid.span);
    const each = this.amountOf(node.amount);
    const liquid = {
      of,
      amount: volume,
      written: !this.solved,
      containers: count && { count: this.scale.amount(count), each },
      madeBefore: this.isMadeBefore(node.fluid),
    };
    if (!each || inUnit(each, MILLILITRE)) return this.portion(liquid);
    const all = { value: each.value.times(count ?? ONE), unit: each.unit };
    const weighed = node.fluid.parts.some(({ ofSolution }) => ofSolution);
    const grams = weighed ? inUnit(all, unit('g')) : null;
    if (grams) return this.portion({ ...liquid, amount: grams, unit: 'g' });
    const dry = this.dry(node.fluid, all);
    if (dry) return this.portion({ ...liquid, ...dry, written: !this.solved && dry.unit === all.unit.symbol });
    return this.portion({ ...liquid, written: false, holds: { value: this.scale.amount(all.value), unit: all.unit } });
  }

  /** The amount on the line, or what was solved for it; of several containers each one's. */
  private amountOf(amount: AdditionNode['amount']): Quantity | null {
    if (!amount) return null;
    const value = amount.kind === 'unknown' ? this.solved?.value : amount.number.value;
    return value ? { value, unit: amount.unit.unit } : null;
  }

  /** A solute without a strength, weighed or counted in units; null for what is drawn from a solution. */
  private dry(
    fluid: FluidNode,
    all: Quantity,
  ): { amount: Decimal; unit: 'g' | 'units'; holds: Quantity | null } | null {
    const [part] = fluid.parts;
    if (fluid.parts.length > 1 || part.strength) return null;
    const substance = this.substanceAt((part.as ?? part.words).span);
    const ion = part.as ? this.mentionAt(part.words.span)?.of : null;
    if (!substance) return null;
    const read = amountOf(all, substance, ion?.kind === 'ion' ? ion.ion : null, part.elemental);
    if (!read.ok) return null;
    if (read.amount.in === 'units') return { amount: read.amount.value, unit: 'units', holds: null };
    const grams = massOf(substance, read.amount);
    if (!grams) return null;
    const asked = { value: this.scale.amount(all.value), unit: all.unit };
    return { amount: grams, unit: 'g', holds: inUnit(all, unit('g')) && !part.elemental ? null : asked };
  }

  private portion(of: Partial<Portion> & Pick<Portion, 'of' | 'amount' | 'written'>): Portion {
    const { scale, solved, step } = this;
    const amount = scale.amount(of.amount);
    const written = of.written && !scale.changes;
    const symbol = of.unit ?? 'mL';
    return {
      action: 'add',
      unit: symbol,
      containers: null,
      holds: null,
      madeBefore: false,
      solved,
      leaves: scale.amount(step.after.volume),
      ...of,
      amount,
      written,
      measured: written || symbol === 'units' ? null : measurable({ value: amount, unit: unit(symbol) }),
    };
  }

  private isMadeBefore(fluid: FluidNode): boolean {
    return fluid.parts.some(({ words }) => {
      const of = this.mentionAt(words.span)?.of;
      return of?.kind === 'mixture' && of.entity.kind === 'mixture';
    });
  }

  private substanceAt(span: Span): Substance | null {
    const of = this.mentionAt(span)?.of;
    return of?.kind === 'substance' ? of.substance : null;
  }

  private mentionAt(span: Span): Mention | null {
    const { start, end } = this.mixture.entity.block.toSource(span);
    return this.model.mentions.find(({ at }) => at.start === start && at.end === end) ?? null;
  }

  private textOf({ start, end }: Span): string {
    return this.mixture.entity.block.text
      .slice(start, end)
      .replace(/\s+/g, ' ')
      .replace(/^of solution /i, '');
  }
}
