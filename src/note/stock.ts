/** Works out a fluid that a note knows by its label. */
import {
  atMost,
  type Contents,
  type Decimal,
  decimal,
  findIon,
  type Ion,
  inUnit,
  ONE,
  ofParticles,
  ofSolute,
  plus,
  type SoluteReading,
  strengthOf,
  times,
  unit,
  water,
  ZERO,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type {
  ClaimNode,
  PropertyNode,
  QuantityNode,
  Span,
  Statement,
  WordPropertyNode,
  Words,
} from '../notation/ast.ts';
import { Choices } from './choices.ts';
import type { Surroundings } from './fluids.ts';
import { Judge } from './judge.ts';
import type { Entity, WorkedMixture } from './model.ts';
import { ObservableReader } from './observable-reader.ts';
import { type Desk, Reporter } from './reporter.ts';
import { soluteNamed } from './solute-named.ts';

const LITRE = decimal(1000);
const HALF = decimal('0.5');
const MILLILITRE = unit('mL');
const MMOL_PER_LITRE = unit('mmol/L');
const MEQ_PER_LITRE = unit('mEq/L');

/** Total; adds what is wrong to the desk's faults. A stock counts as a mixture whose contents are its label's. */
export function workStock(entity: Entity, around: Omit<Surroundings, 'choices'>, desk: Desk): WorkedMixture {
  const choices = new Choices();
  const worked = new StockWorker(entity, { ...around, choices }, desk).work();
  const combinations = worked.contents ? choices.combinations() : [];
  const extremes = (combinations ?? []).flatMap((combination) => {
    const varied = { ...around, choices: new Choices(combination) };
    return new StockWorker(entity, varied, { faults: [], mentions: [] }).work().contents ?? [];
  });
  return { ...worked, extremes };
}

class StockWorker {
  private readonly report: Reporter;
  private readonly amounts: { ion: Ion; mmol: Decimal; half: Decimal }[] = [];
  private readonly checks: ClaimNode[] = [];
  /** In 1 mL. */
  private solutes: Contents = water(ONE);
  private container: Decimal = LITRE;
  /** mEq/L that the label leaves out, positive for cations; null when it says nothing of it. */
  private otherIons: { value: Decimal; signed: boolean } | null = null;
  private cause: SourceSpan | null;

  constructor(
    private readonly entity: Entity,
    private readonly around: Surroundings,
    desk: Desk,
  ) {
    this.report = new Reporter(entity.block, desk);
    this.cause = entity.spoiledBy;
  }

  work(): WorkedMixture {
    const { entity } = this;
    for (const node of entity.body) {
      const place = this.line(node);
      this.cause ??= place;
    }
    const perLitre = new Map(this.amounts.map(({ ion, mmol }) => [ion.forms[0]!, mmol]));
    const label = { ...plus(this.solutes, ofParticles(perLitre, ONE)), volume: ONE };
    if (!this.cause) this.cause = this.unbalanced(label);
    const contents = this.cause ? null : times(label, this.container);
    if (contents) this.check(contents);
    return {
      entity,
      name: entity.name?.text ?? '',
      state: contents ? 'complete' : 'incomplete',
      cause: this.cause,
      contents,
      extremes: [],
      steps: [],
      assumptions: contents ? [{ kind: 'stock', fluid: entity.name?.text ?? '', by: 'note' }] : [],
      solved: [],
      surplusTargets: [],
    };
  }

  /** The place at fault, or null when the line was understood. */
  private line(node: Statement): SourceSpan | null {
    switch (node.kind) {
      case 'property':
        return node.items.length === 1 ? this.property(node) : this.noLine(node.span);
      case 'word-property':
        return this.wordCheck(node);
      default:
        return this.noLine(node.span);
    }
  }

  private noLine(span: Span): SourceSpan {
    return this.report.at(span, { code: 'misplaced', where: 'no-line-of-a-stock' }).cause;
  }

  private property(node: PropertyNode): SourceSpan | null {
    const [{ words, quantity }] = node.items;
    this.report.tolerance(quantity);
    if (words.key === 'container') return this.containerOf(quantity);
    if (words.key === 'other ions') return this.others(quantity);
    const ion = findIon(words.key) ?? this.around.own.ion(words.key);
    if (ion) return this.ion(ion, words, quantity);
    const solute = soluteNamed(words.key, this.around);
    if (solute) return this.solute(solute, words, quantity);
    const observable = new ObservableReader(this.entity.block, this.report, this.around.own).observable(words);
    if (!observable) return this.report.place(words.span);
    const { span, line } = node;
    const subject = { span: words.span, items: [words] };
    this.checks.push({ kind: 'claim', span, line, subject, value: quantity, within: null });
    return null;
  }

  private containerOf(quantity: QuantityNode): SourceSpan | null {
    const volume = inUnit(this.around.choices.quantity(quantity), MILLILITRE);
    if (!volume?.gt(0)) return this.report.dimension(quantity, 'volume', 'the container', ['mL', 'L']).cause;
    this.container = volume;
    return null;
  }

  /** Signed, cations with + and anions with −; without a sign it closes whichever side is short. */
  private others(quantity: QuantityNode): SourceSpan | null {
    const value = inUnit(this.around.choices.quantity(quantity), MEQ_PER_LITRE);
    if (!value) return this.report.dimension(quantity, 'strength', 'other ions', ['mEq/L']).cause;
    this.otherIons = { value, signed: /^[-−+]/.test(quantity.number.text) };
    return null;
  }

  private ion(ion: Ion, words: Words, node: QuantityNode): SourceSpan | null {
    const quantity = this.around.choices.quantity(node);
    const charge = Math.abs(ion.charge ?? 0);
    const mEq = charge > 0 ? inUnit(quantity, MEQ_PER_LITRE) : null;
    const mmol = inUnit(quantity, MMOL_PER_LITRE) ?? mEq?.div(charge);
    if (!mmol) {
      const fits = charge > 0 ? ['mmol/L', 'mEq/L'] : ['mmol/L'];
      return this.report.dimension(node, 'strength', words.text, fits).cause;
    }
    const { value, decimals } = node.number;
    const half = HALF.times(decimal(`1e-${decimals ?? 0}`));
    this.amounts.push({ ion, mmol, half: value.isZero() ? half : half.times(mmol.div(value)) });
    return null;
  }

  private solute(solute: SoluteReading, words: Words, node: QuantityNode): SourceSpan | null {
    const read = strengthOf(this.around.choices.quantity(node), solute.substance, null, false);
    if (!read.ok) {
      const bound = { ok: true, kind: 'solute', ion: null, elemental: false, words, ...solute } as const;
      return this.report.amount(node, bound, read.fault, 'strength').cause;
    }
    this.solutes = { ...plus(this.solutes, ofSolute(solute.substance, read.perMl, ONE)), volume: ONE };
    return null;
  }

  /** `tonicity in the body isotonic`: a check in words, the last of them its value. */
  private wordCheck({ words, span, line }: WordPropertyNode): SourceSpan | null {
    const cut = words.text.lastIndexOf(' ');
    if (cut < 0) return this.noLine(span);
    const end = words.span.end - (words.text.length - cut - 1);
    const of: Words = {
      span: { start: words.span.start, end: end - 1 },
      text: words.text.slice(0, cut),
      key: words.key.slice(0, words.key.lastIndexOf(' ')),
    };
    const last: Words = {
      span: { start: end, end: words.span.end },
      text: words.text.slice(cut + 1),
      key: words.key.slice(words.key.lastIndexOf(' ') + 1),
    };
    const value = { kind: 'word', span: last.span, words: last } as const;
    this.checks.push({ kind: 'claim', span, line, subject: { span: of.span, items: [of] }, value, within: null });
    return null;
  }

  private check(contents: Contents): void {
    const { block } = this.entity;
    const reader = new ObservableReader(block, this.report, this.around.own);
    for (const node of this.checks) {
      const asked = reader.split(node.subject);
      if (!asked || !reader.known(asked.observable, node.subject.span)) continue;
      const subject = {
        name: this.entity.name?.text ?? '',
        contents,
        extremes: [],
        beforeAdditives: null,
        mixture: null,
      };
      new Judge(block, this.report, this.around.reference).claim(node, asked.observable, subject);
    }
  }

  /** Cations and anions meet within what the digits written allow, unless something that is not stated closes them. */
  private unbalanced(label: Contents): SourceSpan | null {
    if (label.masses.size > 0 || this.amounts.length === 0) return null;
    let [cations, anions, allowed] = [ZERO, ZERO, ZERO];
    for (const { ion, mmol, half } of this.amounts) {
      const charge = ion.forms[0]!.charge;
      if (charge > 0) cations = cations.plus(mmol.times(charge));
      else anions = anions.plus(mmol.times(-charge));
      allowed = allowed.plus(half.times(Math.abs(charge)));
      // An ion whose charge varies with the acidity counts for as much less or more as its forms differ.
      if (ion.charge === null) allowed = allowed.plus(mmol);
    }
    const others = this.otherIons;
    const gap = cations.minus(anions);
    const open = others
      ? gap.plus(others.signed ? others.value : gap.isNegative() ? others.value : others.value.negated())
      : gap;
    if (atMost(open.abs(), allowed)) return null;
    const { name, header } = this.entity;
    const fault = { code: 'charge-imbalance', name: name?.text ?? '', cations, anions, allowed } as const;
    return this.report.at(name?.span ?? header, fault).cause;
  }
}
