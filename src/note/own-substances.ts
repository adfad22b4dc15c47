/** Substances, and the ions they give, that the notes of a scope declare themselves. */
import {
  type Decimal,
  type DefinitionFault,
  decimal,
  defineSubstance,
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
import type { GivenIon, PropertyNode, WordPropertyNode } from '../notation/ast.ts';
import { keyOf } from '../notation/index.ts';
import type { Entity, Scope } from './model.ts';
import { type Desk, Reporter } from './reporter.ts';

export interface OwnSubstances {
  /** What an entity declares, or the place that stands in the way. */
  of(entity: Entity): Substance | SourceSpan | null;
  /** By the key of its name; null when none is declared so, or it could not be read. */
  substance(key: string): Substance | null;
  ion(key: string): Ion | null;
  observable(key: string): Observable | null;
}

/** Where nothing is declared. */
const NO_SUBSTANCES: OwnSubstances = {
  of: () => null,
  substance: () => null,
  ion: () => null,
  observable: () => null,
};

type Body = NonNullable<SubstanceDefinition['body']>;

const BODIES: readonly Body[] = ['stays outside cells', 'crosses cells', 'becomes water'];
const IN_THE_BODY = 'in the body ';
const THOUSAND = decimal(1000);
const HUNDRED = decimal(100);

/** Reads every `substance` of a scope, in the order of the note; ions of one name are one. */
export function ownSubstances(scope: Scope, desk: Desk): OwnSubstances {
  const declared = scope.entities.filter(({ kind }) => kind === 'substance');
  if (declared.length === 0) return NO_SUBSTANCES;
  const ions = new Map<string, Particle>();
  const made = new Map<Entity, Substance | SourceSpan>();
  const byKey = new Map<string, Substance>();
  for (const entity of declared) {
    const found = new Declaration(entity, ions, new Reporter(entity.block, desk)).read();
    made.set(entity, found);
    if (!isPlace(found) && entity.name && scope.names.get(entity.name.key) === entity)
      byKey.set(entity.name.key, found);
  }
  const ion = (key: string) => {
    const particle = ions.get(key);
    return particle ? ionOf(particle) : null;
  };
  return {
    of: (entity) => made.get(entity) ?? null,
    substance: (key) => byKey.get(key) ?? null,
    ion,
    observable(key) {
      const [substance, own] = [byKey.get(key), ion(key)];
      return substance ? soluteObservable(substance) : own && ionObservable(own);
    },
  };
}

export function isPlace(found: Substance | SourceSpan): found is SourceSpan {
  return 'start' in found;
}

/** One `substance` with its lines. */
class Declaration {
  private molarMass: Decimal | null = null;
  private apparentVolume: Decimal | null = null;
  private energy: Decimal | null = null;
  private dissolves: Decimal | null = null;
  private equivalent: Decimal | null = null;
  private body: Body | null = null;
  private readonly gives: { particle: Particle | ParticleDefinition; count: number }[] = [];
  private cause: SourceSpan | null;

  constructor(
    private readonly entity: Entity,
    private readonly ions: Map<string, Particle>,
    private readonly report: Reporter,
  ) {
    this.cause = entity.spoiledBy;
  }

  read(): Substance | SourceSpan {
    const { entity } = this;
    for (const node of entity.body) {
      if (node.kind === 'property') this.property(node);
      else if (node.kind === 'word-property') this.inTheBody(node);
      else if (node.kind === 'gives') for (const ion of node.ions) this.given(ion);
    }
    if (this.cause) return this.cause;
    const { molarMass, apparentVolume, energy, dissolves, equivalent, body, gives } = this;
    const defined = defineSubstance({
      name: entity.name?.text ?? '',
      molarMass,
      gives,
      ...(apparentVolume && { apparentVolume }),
      ...(energy && { energy }),
      ...(equivalent && { sodiumChlorideEquivalent: equivalent }),
      ...(body && { body }),
      ...(dissolves && { solubility: { celsius: decimal(20), gramsPer100gWater: dissolves } }),
    });
    if (!defined.ok) return this.unbalanced(defined.fault);
    for (const { particle } of defined.substance.gives) {
      if (particle.ion && !findIon(particle.name)) this.ions.set(keyOf(particle.name), particle);
    }
    return defined.substance;
  }

  /** `molar mass 248.18 g/mol`, `solubility 700 g/L` (g in a litre of water at 20 °C), `apparent volume 0.4 mL/g`, `sodium chloride equivalent 0.23 g/g`. */
  private property({ items: [item, ...more], span }: PropertyNode): void {
    const { unit } = item.quantity.unit;
    const value = item.quantity.number.value.times(unit.factor);
    const dimension = [unit.dimension.over, ...unit.dimension.under].join('/');
    switch (more.length === 0 ? `${item.words.key} ${dimension}` : '') {
      case 'molar mass mass/amount':
        this.molarMass = value.times(THOUSAND);
        break;
      case 'solubility mass/volume':
        this.dissolves = value.times(HUNDRED);
        break;
      case 'apparent volume volume/mass':
        this.apparentVolume = value;
        break;
      case 'sodium chloride equivalent mass/mass':
        this.equivalent = value;
        break;
      case 'energy energy/mass':
        this.energy = value;
        break;
      default:
        this.cause ??= this.report.at(span, { code: 'misplaced', where: 'no-property-of-a-substance' }).cause;
    }
  }

  private inTheBody({ words, span }: WordPropertyNode): void {
    const body = BODIES.find((known) => words.key === IN_THE_BODY + known);
    if (body) this.body = body;
    else this.cause ??= this.report.at(span, { code: 'misplaced', where: 'no-property-of-a-substance' }).cause;
  }

  /** A built-in ion in the form of that charge, one declared above, or a new one. */
  private given({ ion, charge, count }: GivenIon): void {
    const forms = findIon(ion.key)?.forms ?? [];
    const known = forms.find((form) => charge === null || form.charge === charge) ?? this.ions.get(ion.key);
    const particle =
      known && (charge === null || known.charge === charge) ? known : { name: ion.text, charge, molarMass: null };
    this.gives.push({ particle, count });
  }

  private unbalanced(fault: DefinitionFault): SourceSpan {
    const { name, header } = this.entity;
    return this.report.at(name?.span ?? header, { code: 'substance-charges', name: name?.text ?? '', fault }).cause;
  }
}
