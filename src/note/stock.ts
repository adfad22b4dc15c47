/** Works out a fluid that a note knows by its label. */
import {
  atMost,
  type Contents,
  type Decimal,
  decimal,
  defineParticle,
  findIon,
  findObservable,
  findSolute,
  type Ion,
  inUnit,
  ONE,
  ofParticles,
  ofSolute,
  overload,
  type Particle,
  particles,
  plus,
  type Substance,
  times,
  unit,
  water,
  ZERO,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type {
  ClaimNode,
  PartNode,
  PropertyItem,
  PropertyNode,
  QuantityNode,
  Span,
  Statement,
  SyntaxProblem,
  WordPropertyNode,
  Words,
} from '../notation/ast.ts';
import { keyOf } from '../notation/index.ts';
import { Choices } from './choices.ts';
import { extremesOf } from './extremes.ts';
import type { FluidProblem } from './faults.ts';
import { FluidBinder, type Surroundings } from './fluids.ts';
import { halfUnit } from './judge.ts';
import { balanceOf, type OtherIons, type StatedIon } from './label-charges.ts';
import type { Entity, WorkedMixture } from './model.ts';
import { ObservableReader } from './observable-reader.ts';
import { type Desk, overloadFault, Reporter } from './reporter.ts';
import { mentioned, soluteNamed } from './solute-named.ts';

const LITRE = decimal(1000);
const MILLILITRE = unit('mL');
const GRAMS_PER_ML = unit('g/mL');
const MMOL_PER_LITRE = unit('mmol/L');
const MEQ_PER_LITRE = unit('mEq/L');

/** What is not stated, by the sign of its charge, where a result rests on no ion that has a name. */
const OTHER_IONS = {
  1: defineParticle({ name: 'other ions', charge: 1, molarMass: null }),
  [-1]: defineParticle({ name: 'other ions', charge: -1, molarMass: null }),
};

/**
 * Total; adds what is wrong to the desk's faults. A stock counts as a mixture whose contents are its label's: a litre, or
 * one `container`. Each end of a tolerance is taken by itself, whatever the charges then come to.
 */
export function workStock(entity: Entity, around: Omit<Surroundings, 'choices'>, desk: Desk): WorkedMixture {
  const choices = new Choices();
  const worked = new StockWorker(entity, { ...around, choices }, desk).work();
  if (!worked.contents) return worked;
  const { notStated } = worked.contents;
  const extremes = extremesOf(entity, choices, desk, (combination) => {
    const varied = { ...around, choices: new Choices(combination) };
    const label = new StockWorker(entity, varied, { faults: [], mentions: [] }).label();
    return label && { ...label, notStated };
  });
  return { ...worked, extremes };
}

interface IonLine extends StatedIon {
  readonly node: PropertyNode;
}

/**
 * The lines of one label. Ions (mmol/L, mEq/L) and solutes (%, g/L, mg/mL, mmol/L, units/mL) are its content. Labels print
 * the ions beside the salts that give them: an ion that a solute of the label gives is checked, not counted twice. Any
 * other result is checked too. `container 500 mL` is one recipe. `other ions 5 mEq/L` closes what the label leaves out, on
 * the side that is short; with a sign, cations (+) or anions (-).
 */
class StockWorker {
  private readonly report: Reporter;
  private readonly binder: FluidBinder;
  private readonly ions: IonLine[] = [];
  private readonly claims: ClaimNode[] = [];
  private readonly solutes = new Map<Substance, Span>();
  /** In 1 mL. */
  private dissolved: Contents = water(ONE);
  private container = LITRE;
  private otherIons: OtherIons | null = null;
  private readonly once = new Set<string>();
  private cause: SourceSpan | null;

  constructor(
    private readonly entity: Entity,
    private readonly around: Surroundings,
    desk: Desk,
  ) {
    this.report = new Reporter(entity.block, desk);
    this.binder = new FluidBinder(around, this.report);
    this.cause = entity.spoiledBy;
  }

  work(): WorkedMixture {
    const { entity } = this;
    const label = this.label();
    const notStated = this.leftOpen();
    const contents = label && !this.cause ? { ...label, notStated } : null;
    const name = entity.name?.text ?? '';
    return {
      entity,
      name,
      state: contents ? 'complete' : 'incomplete',
      cause: this.cause,
      contents,
      extremes: [],
      steps: [],
      assumptions: contents ? [{ kind: 'stock', fluid: name, by: 'note' }, ...this.binder.assumptions] : [],
      solved: [],
      claims: this.claims,
    };
  }

  /** One container, or null when a line or the label as a whole is at fault. */
  label(): Contents | null {
    for (const node of this.entity.body) {
      const place = this.line(node);
      this.cause ??= place;
    }
    if (this.cause) return null;
    this.setAsideGiven();
    const perLitre = new Map(this.ions.map(({ ion, mmol }) => [ion.forms[0]!, mmol]));
    const label = { ...plus(this.dissolved, ofParticles(perLitre, ONE)), volume: ONE };
    const nothing = this.ions.length === 0 && this.solutes.size === 0;
    this.cause = nothing ? this.problem(this.nameSpan(), 'nothing-stated') : this.tooStrong(label);
    return this.cause ? null : times(label, this.container);
  }

  /** Makes checks of the ions that a solute of the label gives. */
  private setAsideGiven(): void {
    for (const line of this.ions.splice(0)) {
      const [{ words, quantity }] = line.node.items;
      const given = line.ion.forms.some((form) => this.dissolved.particles.has(form));
      if (given) this.check(line.node, words, quantity);
      else {
        this.report.tolerance(quantity);
        this.ions.push(line);
      }
    }
  }

  /** The place at fault, or null when the line was understood. */
  private line(node: Statement): SourceSpan | null {
    switch (node.kind) {
      case 'property':
        return node.items.length === 1 ? this.property(node, node.items[0]) : this.noLine(node.span);
      case 'word-property':
        return this.wordCheck(node);
      default:
        return this.noLine(node.span);
    }
  }

  private noLine(span: Span): SourceSpan {
    return this.report.at(span, { code: 'misplaced', where: 'no-line-of-a-stock' }).cause;
  }

  private property(node: PropertyNode, { words, quantity }: PropertyItem): SourceSpan | null {
    if (words.key === 'container') return this.twice(words, 'container') ?? this.containerOf(quantity);
    if (words.key === 'other ions') return this.twice(words, 'other ions') ?? this.others(quantity);
    const ion = findIon(words.key) ?? this.around.own.ion(words.key);
    if (ion) return this.twice(words, `ion ${ion.name}`) ?? this.ion(node, ion, words, quantity);
    const solute = soluteNamed(words.key, this.around);
    if (solute) {
      const { substance } = solute;
      // A label may print a drug's mass beside its units, which are never converted.
      const measure = quantity.unit.unit.dimension.over === 'activity' ? 'units' : 'solute';
      return this.twice(words, `${measure} ${substance.name}`) ?? this.solute(substance, node);
    }
    const place = this.around.own.withheld(words.key, words.span, this.report);
    if (place) return place;
    if (!this.reader().observable(words)) return this.report.place(words.span);
    this.check(node, words, quantity);
    return null;
  }

  private twice({ span, text: found }: Words, what: string): SourceSpan | null {
    if (this.once.has(what)) return this.syntax(span, 'repeated-clause', found);
    this.once.add(what);
    return null;
  }

  private containerOf(quantity: QuantityNode): SourceSpan | null {
    this.report.tolerance(quantity);
    const volume = inUnit(this.around.choices.quantity(quantity), MILLILITRE);
    if (!volume) return this.report.dimension(quantity, 'volume', 'the container', ['mL', 'L']).cause;
    if (volume.lte(0)) return this.problem(quantity.span, 'not-above-zero');
    this.container = volume;
    return null;
  }

  private others(node: QuantityNode): SourceSpan | null {
    const { number, unit: written, tolerance, span } = node;
    const value = inUnit({ value: number.value, unit: written.unit }, MEQ_PER_LITRE);
    if (!value) return this.report.dimension(node, 'strength', 'other ions', ['mEq/L']).cause;
    if (tolerance) return this.syntax(tolerance.span, 'unexpected-rest', this.text(tolerance.span));
    const half = inUnit({ value: halfUnit(number), unit: written.unit }, MEQ_PER_LITRE) ?? ZERO;
    this.otherIons = { value, half, signed: /^[-−+]/.test(this.text(span)) };
    return null;
  }

  private ion(node: PropertyNode, ion: Ion, words: Words, quantity: QuantityNode): SourceSpan | null {
    this.report.mention(words.span, { kind: 'ion', ion });
    const charge = Math.abs(ion.charge ?? 0);
    const inMmol = (value: Decimal) => {
      const written = { value, unit: quantity.unit.unit };
      return inUnit(written, MMOL_PER_LITRE) ?? (charge > 0 ? inUnit(written, MEQ_PER_LITRE)?.div(charge) : null);
    };
    const mmol = inMmol(this.around.choices.quantity(quantity).value);
    if (!mmol) {
      const fits = charge > 0 ? ['mmol/L', 'mEq/L'] : ['mmol/L'];
      return this.report.dimension(quantity, 'strength', words.text, fits).cause;
    }
    if (quantity.number.value.isNegative()) return this.problem(quantity.span, 'negative-strength');
    this.ions.push({ node, ion, mmol, half: inMmol(halfUnit(quantity.number)) ?? ZERO });
    return null;
  }

  /** Read as the same words and strength in a step are; a colloid or amino acids by their mass, since the ions are the label's. */
  private solute(substance: Substance, node: PropertyNode): SourceSpan | null {
    const { words, quantity } = node.items[0];
    this.solutes.set(substance, quantity.span);
    if (substance.solutionOnly) return this.weighed(substance, words, quantity);
    const part: PartNode = {
      span: node.span,
      strength: quantity,
      ofSolution: false,
      elemental: false,
      words,
      as: null,
    };
    const bound = this.binder.liquid({ span: node.span, parts: [part] });
    if (!bound.ok) return bound.cause;
    this.dissolve(bound.perMl);
    return null;
  }

  private weighed(substance: Substance, words: Words, quantity: QuantityNode): SourceSpan | null {
    this.report.mention(words.span, mentioned(words, substance, this.around));
    this.report.tolerance(quantity);
    const grams = inUnit(this.around.choices.quantity(quantity), GRAMS_PER_ML);
    if (!grams) return this.report.dimension(quantity, 'strength', words.text, ['%', 'g/L']).cause;
    if (grams.isNegative()) return this.problem(quantity.span, 'negative-strength');
    this.dissolve(ofSolute(substance, { in: 'g', value: grams }, ONE));
    return null;
  }

  private dissolve(perMl: Contents): void {
    this.dissolved = { ...plus(this.dissolved, perMl), volume: ONE };
  }

  /** `tonicity in the body isotonic`: a check in words, the last of them its value. */
  private wordCheck({ words, span, line }: WordPropertyNode): SourceSpan | null {
    const { own } = this.around;
    if (findSolute(words.key) ?? findObservable(words.key) ?? own.observable(words.key)) {
      return this.syntax(span, 'missing-value', words.text);
    }
    const cut = words.text.lastIndexOf(' ');
    const middle = words.span.end - (words.text.length - cut - 1);
    const of = this.words({ start: words.span.start, end: middle }, words.text.slice(0, Math.max(cut, 0)));
    const last = this.words({ start: middle, end: words.span.end }, words.text.slice(cut + 1));
    if (!findObservable(of.key)) return this.noLine(span);
    const value = { kind: 'word', span: last.span, words: last } as const;
    this.claims.push({ kind: 'claim', span, line, subject: { span: of.span, items: [of] }, value, within: null });
    return null;
  }

  private words({ start, end }: Span, text: string): Words {
    return { span: { start, end: Math.min(end, start + text.length) }, text, key: keyOf(text) };
  }

  private check({ span, line }: PropertyNode, words: Words, value: QuantityNode): void {
    const subject = { span: words.span, items: [words] };
    this.claims.push({ kind: 'claim', span, line, subject, value, within: null });
  }

  private tooStrong(label: Contents): SourceSpan | null {
    const over = overload(label);
    if (!over) return null;
    const line = [...this.solutes].find(([{ family }]) => family === over.substance.family);
    return this.report.at(line?.[1] ?? this.nameSpan(), overloadFault(over)).cause;
  }

  /** Built-in ions that the label may leave out to close its charges; where nothing says so, the charges are at fault. */
  private leftOpen(): readonly Particle[] {
    if (this.cause) return [];
    const colloid = [...this.dissolved.masses.keys()].some(({ solutionOnly }) => solutionOnly);
    const { cations, anions, others, apart, allowed, short } = balanceOf(this.ions, this.otherIons);
    if (!colloid && !atMost(apart.abs(), allowed)) {
      const name = this.entity.name?.text ?? '';
      const fault = { code: 'charge-imbalance', name, cations, anions, others, apart: apart.abs(), allowed } as const;
      this.cause = this.report.at(this.nameSpan(), fault).cause;
    }
    if (!short) return [];
    const stated = new Set([...this.ions.flatMap(({ ion }) => ion.forms), ...this.dissolved.particles.keys()]);
    const open = particles().filter(({ ion, charge }) => ion && charge * short > 0);
    return [OTHER_IONS[short], ...open.filter((particle) => !stated.has(particle))];
  }

  private problem(span: Span, problem: FluidProblem): SourceSpan {
    return this.report.at(span, { code: 'fluid', problem, found: this.text(span), carriers: [] }).cause;
  }

  private syntax(span: Span, problem: SyntaxProblem, found: string): SourceSpan {
    return this.report.at(span, { code: 'syntax', span, problem, found }).cause;
  }

  private reader(): ObservableReader {
    return new ObservableReader(this.entity.block, this.report, this.around);
  }

  private nameSpan(): Span {
    return this.entity.name?.span ?? this.entity.header;
  }

  private text({ start, end }: Span): string {
    return this.entity.block.text.slice(start, end);
  }
}
