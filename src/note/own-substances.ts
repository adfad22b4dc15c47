/** Substances, and the ions they give, that the notes of a scope declare themselves. */
import {
  type Decimal,
  decimal,
  defineSubstance,
  type FreezingFigure,
  findIon,
  type Ion,
  ionObservable,
  ionOf,
  type Observable,
  type Particle,
  type ParticleDefinition,
  type Substance,
  type SubstanceDefinition,
  soluteObservable,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { GivenIon, PropertyItem, PropertyNode, Span, SyntaxProblem, WordPropertyNode } from '../notation/ast.ts';
import { keyOf } from '../notation/index.ts';
import type { FluidProblem, Located } from './faults.ts';
import { type Lookups, NO_BEDSIDE } from './lookups.ts';
import type { Task, Worker } from './memo.ts';
import type { Entity, Scope } from './model.ts';
import type { Policy } from './policy.ts';
import { type Desk, Reporter } from './reporter.ts';
import { nameTakenBy } from './scope.ts';
import { type Imports, NO_IMPORTS } from './use/imports.ts';

export interface OwnSubstances {
  /** What an entity declares, or the place that stands in the way. */
  of(entity: Entity): Substance | SourceSpan | null;
  /** By the key of its name; null when none is declared so, or it could not be read. */
  substance(key: string): Substance | null;
  ion(key: string): Ion | null;
  observable(key: string): Observable | null;
  /** The place at fault when a substance of that name, or the one that gives that ion, is declared and could not be read. */
  held(key: string): SourceSpan | null;
  /** The same, and else what another note withholds, which is said at `span`. */
  withheld(key: string, span: Span, report: Reporter): SourceSpan | null;
  /** What the note itself declares, for those that use it: ions by key, and the keys of those that could not be read. */
  readonly declared: { readonly ions: ReadonlyMap<string, Particle>; readonly lost: ReadonlySet<string> };
}

/** Where nothing is declared. */
export const NO_SUBSTANCES: OwnSubstances = {
  of: () => null,
  substance: () => null,
  ion: () => null,
  observable: () => null,
  held: () => null,
  withheld: () => null,
  declared: { ions: new Map(), lost: new Set() },
};

type Body = NonNullable<SubstanceDefinition['body']>;

export const BODIES: readonly Body[] = ['stays outside cells', 'crosses cells', 'becomes water'];
const IN_THE_BODY = 'in the body ';
const THOUSAND = decimal(1000);
const HUNDRED = decimal(100);

/** Reads every `substance` of a scope, in the order of the note; ions of one name are one. Those of used notes join them. */
export function ownSubstances(
  scope: Scope,
  imports: Imports,
  { policy, worker }: { readonly policy: Policy; readonly worker: Worker },
  desk: Desk,
): OwnSubstances {
  const declared = scope.entities.filter(({ kind }) => kind === 'substance');
  if (declared.length === 0 && imports === NO_IMPORTS) return NO_SUBSTANCES;
  const ions = new Map<string, Particle>();
  const made = new Map<Entity, Substance | SourceSpan>();
  const byKey = new Map<string, Substance>();
  const withheld = new Map<string, SourceSpan>();
  const around = { ...NO_BEDSIDE, scope, imports, own: NO_SUBSTANCES, worked: new Map(), policy, above: ions };
  for (const entity of declared) {
    const { name, body } = entity;
    const { found, gives, named } = worker.do(DECLARATION, entity, around, desk);
    for (const [key, particle] of gives) ions.set(key, particle);
    made.set(entity, found);
    const twice = name && scope.names.get(name.key) === 'duplicate';
    if (name && named && twice) withheld.set(name.key, isPlace(found) ? found : named);
    else if (name && isPlace(found)) withheld.set(name.key, found);
    else if (name && scope.names.get(name.key) === entity) byKey.set(name.key, found as Substance);
    if (name && named && !isPlace(found)) {
      desk.mentions.push({
        at: named,
        of: { kind: 'substance', substance: found, written: name.text, from: null },
      });
    }
    if (!isPlace(found)) continue;
    for (const node of body) if (node.kind === 'gives') for (const { ion } of node.ions) withheld.set(ion.key, found);
  }
  const ion = (key: string) => {
    const particle = ions.get(key);
    return ionOfForms([...(particle ? [particle] : []), ...imports.particles(key)]);
  };
  const substance = (key: string) => {
    const used = imports.get(key);
    return byKey.get(key) ?? (used?.kind === 'substance' ? used.substance : null);
  };
  return {
    of: (entity) => made.get(entity) ?? null,
    substance,
    ion,
    observable(key) {
      const [solute, own] = [substance(key), ion(key)];
      return solute ? soluteObservable(solute) : own && ionObservable(own);
    },
    held: (key) => withheld.get(key) ?? null,
    withheld: (key, span, report) => withheld.get(key) ?? imports.withheld(key, span, report),
    declared: { ions, lost: new Set([...withheld.keys()].filter((key) => !ions.has(key))) },
  };
}

interface Declared {
  readonly found: Substance | SourceSpan;
  /** Ions that it declares, by key. */
  readonly gives: readonly (readonly [string, Particle])[];
  /** Where its name stands, if it has one. */
  readonly named: SourceSpan | null;
}

const DECLARATION: Task<Entity, Declared> = {
  kind: 'substance',
  work(entity, around, desk) {
    const { name, block } = entity;
    const read = new Declaration(entity, around, new Reporter(block, desk)).read();
    return { ...read, named: name && block.place(name.span) };
  },
};

/** Ions of one name, whichever note declares them, are one. */
function ionOfForms(particles: readonly Particle[]): Ion | null {
  const forms = [...new Set(particles)];
  const ion = forms[0] ? ionOf(forms[0]) : null;
  if (!ion || forms.length === 1) return ion;
  return { ...ion, forms, charge: forms.every(({ charge }) => charge === ion.charge) ? ion.charge : null };
}

export function isPlace(found: Substance | SourceSpan): found is SourceSpan {
  return 'start' in found;
}

/** What one mole gives of an ion: a known one, or one to be made. */
interface Giving {
  readonly particle: Particle | ParticleDefinition;
  readonly count: number;
  /** The forms among which the charge left over chooses, of an ion that has several and is written without a charge. */
  readonly forms: readonly Particle[];
  readonly node: GivenIon;
}

/**
 * One `substance` with its lines, each at most once but `gives`: `molar mass 248.18 g/mol`, `gives sodium 2, thiosulfate
 * 2- 1`, `solubility 700 g/L` (grams in a litre of water at 20 °C), `apparent volume 0.4 mL/g`, `energy 3.4 kcal/g`,
 * `in the body crosses cells` (of a molecule; ions stay outside cells), and one figure of its freezing: `sodium chloride
 * equivalent 0.23 g/g`, `freezing point depression 0.38 °C at 1%` or `dissociation 80%`.
 */
class Declaration {
  private readonly told = new Map<string, Decimal>();
  private freezing: { readonly figure: FreezingFigure; readonly span: Span } | null = null;
  private body: { readonly is: Body; readonly span: Span } | null = null;
  private readonly gives: Giving[] = [];
  private cause: SourceSpan | null;

  constructor(
    private readonly entity: Entity,
    private readonly around: Pick<Lookups, 'scope' | 'above' | 'imports'>,
    private readonly report: Reporter,
  ) {
    this.cause = entity.spoiledBy;
  }

  read(): Omit<Declared, 'named'> {
    for (const node of this.entity.body) {
      if (node.kind === 'property') this.property(node);
      else if (node.kind === 'word-property') this.inTheBody(node);
      else if (node.kind === 'gives') for (const ion of node.ions) this.given(ion);
    }
    this.chooseForm();
    this.bodyOfIons();
    this.dissociationOfIons();
    return this.cause ? { found: this.cause, gives: [] } : this.define();
  }

  private define(): Omit<Declared, 'named'> {
    const { name, header } = this.entity;
    const { told, body, gives, freezing } = this;
    const [apparentVolume, energy] = [told.get('apparent volume'), told.get('energy')];
    const dissolves = told.get('solubility');
    const defined = defineSubstance({
      name: name?.text ?? '',
      molarMass: told.get('molar mass') ?? null,
      gives,
      ...(apparentVolume && { apparentVolume }),
      ...(energy && { energy }),
      ...(freezing && { freezing: freezing.figure }),
      ...(body && { body: body.is }),
      ...(dissolves && { solubility: { celsius: decimal(20), gramsPer100gWater: dissolves } }),
    });
    if (!defined.ok) {
      const fault = { code: 'substance-charges', name: name?.text ?? '', fault: defined.fault } as const;
      return { found: this.report.at(name?.span ?? header, fault).cause, gives: [] };
    }
    const own = defined.substance.gives.filter(({ particle }) => particle.ion && !findIon(particle.name));
    return { found: defined.substance, gives: own.map(({ particle }) => [keyOf(particle.name), particle]) };
  }

  private property(node: PropertyNode): void {
    const { span } = node;
    const [item, ...more] = node.items;
    const { words } = item;
    const figure = freezingFigure(node.items);
    if (figure) {
      this.freezes(figure, node);
      return;
    }
    const { value, dimension } = measured(item);
    switch (more.length === 0 ? `${words.key} ${dimension}` : '') {
      case 'molar mass mass/amount':
        this.tell(item, value.times(THOUSAND), 'above-zero');
        break;
      case 'solubility mass/volume':
        this.tell(item, value.times(HUNDRED), 'above-zero');
        break;
      case 'apparent volume volume/mass':
      case 'energy energy/mass':
        this.tell(item, value, 'zero-too');
        break;
      default:
        this.fault(span, { code: 'misplaced', where: 'no-property-of-a-substance' });
    }
  }

  private tell({ words, quantity }: PropertyItem, value: Decimal, least: 'above-zero' | 'zero-too'): void {
    const { span, tolerance } = quantity;
    const problem = least === 'above-zero' ? 'not-above-zero' : 'below-zero';
    if (this.told.has(words.key)) this.twice(words.span);
    else if (tolerance) this.syntax(tolerance.span, 'unexpected-rest');
    else if (value.isNegative() || (value.isZero() && least === 'above-zero')) {
      this.fault(span, { code: 'fluid', problem, found: this.text(span), carriers: [] });
    } else this.told.set(words.key, value);
  }

  private freezes(figure: FreezingFigure, { items, span }: PropertyNode): void {
    const withTolerance = items.find(({ quantity }) => quantity.tolerance)?.quantity.tolerance;
    const problem = freezingProblem(figure);
    if (this.freezing) this.twice(span);
    else if (withTolerance) this.syntax(withTolerance.span, 'unexpected-rest');
    else if (problem) this.fault(span, { code: 'fluid', problem, found: this.text(span), carriers: [] });
    else this.freezing = { figure, span };
  }

  /** How far something dissociates says nothing where no ions and no molar mass are given. */
  private dissociationOfIons(): void {
    if (this.freezing?.figure.by !== 'dissociation') return;
    if (this.gives.length > 0 && this.told.has('molar mass')) return;
    this.fault(this.freezing.span, { code: 'misplaced', where: 'dissociation-of-what' });
  }

  private inTheBody({ words, span }: WordPropertyNode): void {
    const body = BODIES.find((known) => words.key === IN_THE_BODY + known);
    if (!body) this.fault(span, { code: 'misplaced', where: 'no-property-of-a-substance' });
    else if (this.body) this.twice(span);
    else this.body = { is: body, span };
  }

  private bodyOfIons(): void {
    if (!this.body || this.body.is === 'stays outside cells' || this.gives.length === 0) return;
    this.fault(this.body.span, { code: 'misplaced', where: 'body-of-ions' });
  }

  /** A built-in ion in the form of that charge, one declared above, or a new one. */
  private given(node: GivenIon): void {
    const { ion, charge, count } = node;
    if (this.gives.some((earlier) => earlier.node.ion.key === ion.key)) {
      this.twice(ion.span);
      return;
    }
    const above = this.around.above.get(ion.key);
    const known = above ? [above] : this.formsOf(ion.key);
    if (known.length === 0) {
      this.made(node);
      return;
    }
    const forms = known.filter((form) => charge === null || form.charge === charge);
    if (forms.length === 0) {
      this.wrongCharge(node, known);
      return;
    }
    const particle = forms.length === 1 ? forms[0]! : { name: ion.text, charge: null, molarMass: null };
    this.gives.push({ particle, count, forms, node });
  }

  /** Of a built-in ion, or of one that a used note declares, one for each charge. */
  private formsOf(key: string): readonly Particle[] {
    const forms = (findIon(key)?.forms ?? this.around.imports.particles(key)).filter((form) => form.ion);
    return forms.filter(({ charge }, index) => forms.findIndex((form) => form.charge === charge) === index);
  }

  private made(node: GivenIon): void {
    const { ion, charge, count } = node;
    const by = nameTakenBy(ion.key) ?? (this.around.scope.names.has(ion.key) ? 'name' : null);
    if (by) this.fault(ion.span, { code: 'name-taken', name: ion.text, by });
    else this.gives.push({ particle: { name: ion.text, charge, molarMass: null }, count, forms: [], node });
  }

  /** The form of an ion such as phosphate that the other charges ask for. */
  private chooseForm(): void {
    const open = this.gives.filter(({ particle }) => particle.charge === null);
    const [chosen] = open;
    if (open.length !== 1 || !chosen || chosen.forms.length === 0) return;
    const { count, forms, node } = chosen;
    const sum = this.gives.reduce((total, given) => total + (given.particle.charge ?? 0) * given.count, 0);
    const form = forms.find(({ charge }) => charge * count + sum === 0);
    if (form) this.gives[this.gives.indexOf(chosen)] = { ...chosen, particle: form };
    else this.wrongCharge(node, forms);
  }

  private wrongCharge({ ion, charge }: GivenIon, known: readonly Particle[]): void {
    this.fault(ion.span, { code: 'ion-charge', ion: ion.text, charge, charges: known.map((form) => form.charge) });
  }

  private twice(span: Span): void {
    this.syntax(span, 'repeated-clause');
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

/** The number in the base unit of what it measures, and what that is: `mass/volume`. */
function measured({ quantity: { number, unit } }: PropertyItem): {
  readonly value: Decimal;
  readonly dimension: string;
} {
  const { over, under } = unit.unit.dimension;
  return { value: number.value.times(unit.unit.factor), dimension: [over, ...under].join('/') };
}

/** `sodium chloride equivalent 0.23 g/g`, `freezing point depression 0.38 °C at 1%`, `dissociation 80%`; null of other lines. */
function freezingFigure([item, at, ...more]: PropertyNode['items']): FreezingFigure | null {
  const { value, dimension } = measured(item);
  switch (`${item.words.key} ${dimension}`) {
    case 'sodium chloride equivalent mass/mass':
      return at ? null : { by: 'equivalent', grams: value };
    case 'dissociation mass/volume':
      return at || item.quantity.unit.unit.symbol !== '%'
        ? null
        : { by: 'dissociation', share: item.quantity.number.value.div(HUNDRED) };
    case 'freezing point depression temperature': {
      const strength = at && more.length === 0 && at.words.key === 'at' ? measured(at) : null;
      return strength?.dimension === 'mass/volume'
        ? { by: 'depression', celsius: value, strength: strength.value }
        : null;
    }
    default:
      return null;
  }
}

function freezingProblem(figure: FreezingFigure): FluidProblem | null {
  switch (figure.by) {
    case 'equivalent':
      return figure.grams.isNegative() ? 'below-zero' : null;
    case 'depression':
      return figure.celsius.isNegative() ? 'below-zero' : figure.strength.gt(0) ? null : 'not-above-zero';
    case 'dissociation':
      return figure.share.isNegative() ? 'below-zero' : figure.share.gt(1) ? 'above-whole' : null;
  }
}
