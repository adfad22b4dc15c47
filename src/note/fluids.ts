/** From the words of a fluid to what a millilitre of it holds. */
import {
  type Contents,
  findIon,
  findShorthand,
  findSolute,
  findStockFluid,
  formMatters,
  type Ion,
  nearNames,
  ONE,
  ofSolute,
  oneMl,
  overload,
  plus,
  type StockFluid,
  type Substance,
  stockSolution,
  strengthOf,
  substances,
  type WorkingStep,
  water,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { FluidNode, PartNode, QuantityNode, Span, Words } from '../notation/ast.ts';
import { parseFluid } from '../notation/index.ts';
import type { Choices } from './choices.ts';
import type { FluidProblem } from './faults.ts';
import { isMisspelling, readingsOfSymbol } from './mistaken-symbols.ts';
import type { Assumption, Entity, Scope, WorkedMixture } from './model.ts';
import { isPlace, type OwnSubstances } from './own-substances.ts';
import type { Policy } from './policy.ts';
import { overloadFault, type Reporter } from './reporter.ts';
import { mentioned, soluteNamed } from './solute-named.ts';
import { type Imported, type Imports, NO_IMPORTS } from './use/imports.ts';

/** What is given a name in a scope. */
export interface Names {
  readonly entities: readonly Entity[];
  readonly names: Pick<Scope['names'], 'get' | 'has' | 'keys'>;
}

/** What a lookup needs to know; `worked` holds every mixture that the one being bound is made from. */
export interface Surroundings {
  readonly scope: Names;
  readonly worked: { get(entity: Entity): WorkedMixture | undefined };
  readonly policy: Policy;
  /** What the scope declares itself. */
  readonly own: OwnSubstances;
  /** What other notes give it. */
  readonly imports: Imports;
  /** Which values quantities with a tolerance take. */
  readonly choices: Choices;
}

/** Not bound: its place at fault is already reported, or lies in what it is made from. */
export interface Unbound {
  readonly ok: false;
  readonly cause: SourceSpan;
}

/** A solute that still wants an amount or a volume. */
export interface BoundSolute {
  readonly ok: true;
  readonly kind: 'solute';
  readonly substance: Substance;
  /** The ion that carries the amount, when one is written before `as`. */
  readonly ion: Ion | null;
  readonly elemental: boolean;
  /** Forms that the words could equally mean when a mass is given. */
  readonly alternatives: readonly Substance[];
  readonly words: Words;
}

/** A liquid: a volume of it can be measured out. */
export interface BoundLiquid {
  readonly ok: true;
  readonly kind: 'liquid';
  readonly name: string;
  readonly perMl: Contents;
  /** One whole recipe, when it is a mixture. */
  readonly recipe: Contents | null;
  /** The solute of its strength, so that an amount of solute can be drawn from it. */
  readonly drawn: BoundSolute | null;
  readonly working: readonly WorkingStep[];
}

export type BoundFluid = BoundSolute | BoundLiquid;

/** Binds the fluids of one entity or line; collects what was assumed on the way. */
export class FluidBinder {
  readonly assumptions: Assumption[] = [];

  constructor(
    private readonly around: Surroundings,
    private readonly report: Reporter,
  ) {}

  /** A fluid of one or more parts. Several parts, or a strength, make a liquid. `dry`: its amount is that of a solute. */
  fluid(node: FluidNode, dry = false): BoundFluid | Unbound {
    if (node.parts.length === 1) return this.part(node.parts[0], dry);
    let perMl: Contents | null = null;
    let base: string | null = null;
    let drawn: BoundSolute | null = null;
    const working: WorkingStep[] = [];
    for (const part of node.parts) {
      const bound = this.part(part);
      if (!bound.ok) return bound;
      if (bound.kind === 'solute') return this.problem(part.words, 'missing-strength');
      if (!bound.drawn) {
        if (base !== null) return this.problem(part.words, 'two-fluids');
        base = bound.name;
      }
      drawn ??= bound.drawn;
      working.push(...bound.working);
      perMl = perMl ? { ...plus(perMl, bound.perMl), volume: ONE } : bound.perMl;
    }
    const cause = this.tooStrong(perMl as Contents, node.span);
    if (cause) return { ok: false, cause };
    return { ok: true, kind: 'liquid', name: nameOf(node), perMl: perMl as Contents, recipe: null, drawn, working };
  }

  /** A fluid that must be a liquid, as after `to`, `for` or in a comparison. */
  liquid(node: FluidNode): BoundLiquid | Unbound {
    const bound = this.fluid(node);
    return bound.ok && bound.kind === 'solute' ? this.problem(bound.words, 'missing-strength') : bound;
  }

  private part(node: PartNode, dry = false): BoundFluid | Unbound {
    if (node.as) return this.carried(node, node.as);
    const own = this.around.scope.names.get(node.words.key);
    if (own && !(own !== 'duplicate' && this.around.own.substance(node.words.key))) return this.own(node, own);
    const used = this.around.imports.get(node.words.key);
    if (used && used.kind !== 'substance') return this.used(node, used);
    const solute = soluteNamed(node.words.key, this.around);
    if (solute) {
      const { substance } = solute;
      if (!substance.molarMass && substance.own && substance.gives.length === 0) {
        this.assume({ kind: 'no-osmoles', substance });
      }
      if (solute.by === 'pharmacopoeia') this.assume({ kind: 'form', written: node.words.text, taken: substance });
      this.report.mention(node.words.span, mentioned(node.words, substance, this.around));
      return this.withStrength(node, {
        ok: true,
        kind: 'solute',
        substance,
        ion: null,
        elemental: node.elemental,
        alternatives: solute.alternatives,
        words: node.words,
      });
    }
    const stock = findStockFluid(node.words.key);
    if (stock) {
      return node.strength ? this.problem(node.words, 'strength-on-fluid') : this.stock(stock, node);
    }
    return this.shorthand(node) ?? this.unknown(node.words, dry || node.strength !== null);
  }

  private stock(stock: StockFluid, node: PartNode): BoundLiquid {
    const perMl = oneMl(stock.perLitre);
    this.assume({ kind: 'stock', fluid: stock.name, by: stock.by });
    this.report.mention(node.words.span, { kind: 'fluid', name: stock.name, perMl });
    return { ok: true, kind: 'liquid', name: stock.name, perMl, recipe: null, drawn: null, working: [] };
  }

  /** `potassium as potassium chloride`: the amount is the ion's, the salt carries it. */
  private carried(node: PartNode, as: Words): BoundFluid | Unbound {
    const ion = findIon(node.words.key) ?? this.around.own.ion(node.words.key);
    const solute = soluteNamed(as.key, this.around);
    const own = this.around.scope.names.get(as.key);
    if (own && own !== 'duplicate' && own.kind === 'substance' && !solute) return this.withheld(own, as);
    const fluid = own || this.around.imports.get(as.key)?.kind === 'fluid';
    if (!solute) return fluid ? this.problem(as, 'missing-strength') : this.unknown(as, true);
    if (!ion) {
      const cause = this.around.own.withheld(node.words.key, node.words.span, this.report);
      if (cause) return { ok: false, cause };
      return findSolute(node.words.key)
        ? this.problem(node.words, 'no-ion-before-as')
        : this.unknown(node.words, false);
    }
    const { substance } = solute;
    this.report.mention(node.words.span, { kind: 'ion', ion });
    this.report.mention(as.span, mentioned(as, substance, this.around));
    if (!substance.gives.some(({ particle }) => ion.forms.includes(particle))) {
      return this.report.at(node.words.span, {
        code: 'ion-not-in-substance',
        ion: ion.name,
        substance: substance.name,
        gives: substance.gives.map(({ particle }) => particle.name),
      });
    }
    return this.withStrength(node, {
      ok: true,
      kind: 'solute',
      substance,
      ion,
      elemental: node.elemental,
      alternatives: solute.alternatives,
      words: as,
    });
  }

  /** A substance of the note's own that could not be read. */
  private withheld(own: Entity, words: Words): Unbound {
    const found = this.around.own.of(own);
    return { ok: false, cause: found && isPlace(found) ? found : this.report.place(words.span) };
  }

  /** A mixture of the note's own. */
  private own(node: PartNode, own: Entity | 'duplicate'): BoundFluid | Unbound {
    if (own === 'duplicate') return { ok: false, cause: this.report.place(node.words.span) };
    if (own.kind === 'substance') return this.withheld(own, node.words);
    if (own.kind === 'patient' || own.kind === 'give') {
      return this.report.at(node.words.span, {
        code: 'wrong-kind',
        found: node.words.text,
        wanted: 'fluid',
        is: own.kind,
      });
    }
    const worked = this.around.worked.get(own);
    this.report.mention(node.words.span, { kind: 'mixture', entity: own });
    return this.recipe(node, worked ?? null, worked?.cause ?? own.spoiledBy);
  }

  /** A mixture or stock of another note. */
  private used(node: PartNode, used: Imported): BoundFluid | Unbound {
    if (used.kind === 'fluid') {
      this.report.mention(node.words.span, { kind: 'used', mixture: used.mixture, from: used.from });
      return this.recipe(node, used.mixture, null);
    }
    return {
      ok: false,
      cause:
        this.around.own.withheld(node.words.key, node.words.span, this.report) ?? this.report.place(node.words.span),
    };
  }

  private recipe(node: PartNode, worked: WorkedMixture | null, cause: SourceSpan | null): BoundFluid | Unbound {
    if (node.strength) return this.problem(node.words, 'strength-on-fluid');
    const contents = worked && this.around.choices.contents(worked);
    if (!worked || !contents) return { ok: false, cause: cause ?? this.report.place(node.words.span) };
    const perMl = oneMl(contents);
    return { ok: true, kind: 'liquid', name: worked.name, perMl, recipe: contents, drawn: null, working: [] };
  }

  private withStrength(node: PartNode, solute: BoundSolute): BoundFluid | Unbound {
    if (!node.strength) return solute.substance.id === 'water' ? WATER : solute;
    const { strength, as } = node;
    // Behind the salt's name a strength is the salt's, whatever ion the amount counts.
    const ofSalt = as !== null && strength.span.start > as.span.start;
    if (strength.number.value.isNegative())
      return this.problem({ ...node.words, span: strength.span }, 'negative-strength');
    this.report.tolerance(strength);
    const ambiguous = this.ambiguousForm(strength, solute);
    if (ambiguous) return ambiguous;
    const stock = stockSolution(solute.substance, this.around.choices.quantity(strength));
    if (stock) return this.stock(stock, node);
    const read = strengthOf(
      this.around.choices.quantity(strength),
      solute.substance,
      ofSalt ? null : solute.ion,
      !ofSalt && solute.elemental,
    );
    if (!read.ok) return this.report.amount(strength, solute, read.fault, 'strength');
    const perMl = ofSolute(solute.substance, read.perMl, ONE);
    const cause = this.tooStrong(perMl, strength.span);
    if (cause) return { ok: false, cause };
    return {
      ok: true,
      kind: 'liquid',
      name: partName(node),
      perMl,
      recipe: null,
      drawn: solute,
      working: read.working,
    };
  }

  /** A mass of a solute whose name leaves its hydrate open, with no pharmacopoeial default, has two readings. */
  ambiguousForm(quantity: QuantityNode, solute: BoundSolute): Unbound | null {
    if (!formMatters(solute, quantity.unit.unit)) return null;
    return this.report.at(solute.words.span, {
      code: 'ambiguous-name',
      found: solute.words.text,
      readings: [solute.substance, ...solute.alternatives].map(({ name }) => name),
    });
  }

  private shorthand(node: PartNode): BoundFluid | Unbound | null {
    const short = findShorthand(node.words.key);
    if (!short) return null;
    if (node.strength) return this.problem(node.words, 'strength-on-fluid');
    if (short.alternatives.length > 0) {
      return this.report.at(node.words.span, {
        code: 'ambiguous-name',
        found: node.words.text,
        readings: [short.means, ...short.alternatives],
      });
    }
    const meant = parseFluid(short.means);
    if (!meant) return null;
    this.report.at(node.words.span, {
      code: 'unsafe-abbreviation',
      kind: 'fluid',
      found: node.words.text,
      safe: short.means,
    });
    const quiet = new FluidBinder(
      { ...this.around, scope: NO_NAMES, imports: NO_IMPORTS },
      this.report.pinned(node.words.span),
    );
    const bound = quiet.fluid(meant);
    for (const assumption of quiet.assumptions) this.assume(assumption);
    if (bound.ok && bound.kind === 'liquid') {
      this.report.mention(node.words.span, { kind: 'fluid', name: short.means, perMl: bound.perMl });
    }
    return bound;
  }

  private unknown(words: Words, solute: boolean): Unbound {
    if (findIon(words.key)) return this.problem(words, 'ion-alone');
    const readings = readingsOfSymbol(words.key);
    if (readings) return this.report.at(words.span, { code: 'ambiguous-name', found: words.text, readings });
    const withheld = this.around.own.withheld(words.key, words.span, this.report);
    if (withheld) return { ok: false, cause: withheld };
    const names = [...this.around.scope.names.keys(), ...this.around.imports.keys()];
    return this.report.at(words.span, {
      code: 'unknown-name',
      found: words.text,
      near: isMisspelling(words.key) ? nearNames(words.key, names) : [],
      solute,
    });
  }

  /** The place at fault when that much cannot be in solution. */
  private tooStrong(perMl: Contents, span: Span): SourceSpan | null {
    const over = overload(perMl);
    return over ? this.report.at(span, overloadFault(over)).cause : null;
  }

  private problem(words: Words, problem: FluidProblem): Unbound {
    const ion = problem === 'ion-alone' ? findIon(words.key) : null;
    const carriers = ion
      ? substances()
          .filter(({ gives }) => gives.some(({ particle }) => ion.forms.includes(particle)))
          .map(({ family }) => family)
      : [];
    return this.report.at(words.span, { code: 'fluid', problem, found: words.text, carriers: [...new Set(carriers)] });
  }

  assume(assumption: Assumption): void {
    const key = assumptionKey(assumption);
    if (!this.assumptions.some((known) => assumptionKey(known) === key)) this.assumptions.push(assumption);
  }
}

function assumptionKey(assumption: Assumption): string {
  switch (assumption.kind) {
    case 'form':
      return `form ${assumption.taken.id}`;
    case 'dry':
      return `dry ${assumption.substance.id}`;
    case 'no-osmoles':
      return `no-osmoles ${assumption.substance.name}`;
    case 'uncounted':
      return `uncounted ${assumption.label}`;
    case 'by-weight':
      return `by-weight ${assumption.fluid}`;
    case 'stock':
      return `stock ${assumption.fluid}`;
    default:
      return assumption.kind;
  }
}

const WATER: BoundLiquid = {
  ok: true,
  kind: 'liquid',
  name: 'water',
  perMl: water(ONE),
  recipe: null,
  drawn: null,
  working: [],
};

const NO_NAMES: Names = { entities: [], names: new Map() };

function partName(part: PartNode): string {
  const words = part.as ? `${part.words.text} as ${part.as.text}` : part.words.text;
  return part.strength ? `${words} ${part.strength.number.text} ${part.strength.unit.text}` : words;
}

export function nameOf(fluid: FluidNode): string {
  return fluid.parts.map(partName).join(' in ');
}
