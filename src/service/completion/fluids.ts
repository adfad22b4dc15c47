/** Fluids and solutes: the note's own first, then what stands on the shelf, then what is dissolved. */
import {
  type Contents,
  decimal,
  findIon,
  findSolute,
  findStockFluid,
  findUnit,
  formatQuantity,
  ONE,
  ofSolute,
  type StockFluid,
  type Substance,
  sourceTitle,
  stockFluids,
  strengthOf,
  substances,
  times,
} from '../../engine/index.ts';
import { keyOf, type Place } from '../../notation/index.ts';
import type { Entity, Policy } from '../../note/index.ts';
import { firstNumbersText, shortVerdict, verdict } from '../cards/composition.ts';
import { snippet } from '../gaps.ts';
import { mixtureOf, named, type Scene } from './scene.ts';
import type { Candidate } from './types.ts';

type FluidPlace = Extract<Place, { kind: 'fluid' }>;

const LITRE = decimal(1000);
/** An amount in one of these is an amount of a solute. */
const OF_SOLUTE = new Set(['mass', 'amount', 'charge', 'activity']);

export function fluidsFor(place: FluidPlace, scene: Scene): readonly Candidate[] {
  const { policy } = scene.model;
  if (place.counted) return ownFluids(scene);
  const solute = !place.vehicle && place.in === 'step' && OF_SOLUTE.has(place.amount?.unit.dimension.over ?? '');
  if (solute) return solutesWithAmount(place, scene);
  return [...ownFluids(scene), ...importedNames(scene), ...shelf(policy), ...solutes(scene)];
}

/** What other notes give this one, under names where a hyphen stands for a space. */
function importedNames({ scope }: Scene): readonly Candidate[] {
  return scope.imported.map((key) => ({
    kind: 'mixture',
    label: key.replaceAll(' ', '-'),
    detail: 'from a note that is used',
  }));
}

/** A solute by its amount, or the solution that holds so much of it. */
function solutesWithAmount({ amount }: FluidPlace, scene: Scene): readonly Candidate[] {
  const over = amount?.unit.dimension.over;
  const ions = over === 'amount' || over === 'charge' ? ionsCarried() : [];
  return [...solutes(scene), ...ions, ...shelf(scene.model.policy).filter(({ kind }) => kind === 'solute')];
}

/** Salts that give the ion: the note's own first. */
export function carriersOf(key: string, scene: Scene): readonly Candidate[] {
  const ion = findIon(key);
  const salts = ion
    ? substances().filter(({ gives }) => gives.some(({ particle }) => ion.forms.includes(particle)))
    : [];
  return [...ownSubstances(scene), ...families(salts)];
}

export function solutes(scene: Scene): readonly Candidate[] {
  return [...ownSubstances(scene), ...families(substances().filter((substance) => !substance.solutionOnly))];
}

function families(of: readonly Substance[]): readonly Candidate[] {
  return [...new Map(of.map((substance) => [substance.family, substance])).values()].map(({ family, sources }) => ({
    kind: 'solute',
    label: family,
    detail: 'solute',
    documentation: `Write its strength, or its amount before it. ${sourcesText(sources)}`,
  }));
}

function ownSubstances(scene: Scene): readonly Candidate[] {
  return named(scene, 'substance').map(({ name }) => ({
    kind: 'substance',
    label: name!.text,
    detail: 'substance of this note',
  }));
}

const ION_NAMES = ['sodium', 'potassium', 'calcium', 'magnesium', 'chloride', 'bicarbonate', 'phosphate', 'acetate'];

function ionsCarried(): readonly Candidate[] {
  return ION_NAMES.map((name) => ({
    kind: 'solute',
    label: `${name} as`,
    snippet: snippet(`${name} as ‹salt›`),
    detail: 'an ion, and the salt that carries it',
  }));
}

function ownFluids(scene: Scene): readonly Candidate[] {
  const own = named(scene, 'mixture', 'stock').filter((entity) => entity !== scene.open);
  return own.map((entity) => ownFluid(entity, scene));
}

function ownFluid(entity: Entity, scene: Scene): Candidate {
  const { policy } = scene.model;
  const { name, title } = entity;
  const kind = entity.kind === 'stock' ? 'stock' : 'mixture';
  const contents = mixtureOf(scene, entity)?.contents ?? null;
  const told = contents ? describe(contents, policy) : 'No results yet.';
  return {
    kind,
    label: name!.text,
    detail: contents ? formatQuantity(contents.volume, 'mL') : kind,
    documentation: title ? `${title.text}. ${told}` : told,
  };
}

/** What is the same for every note under one policy is put together once. */
const shelves = new WeakMap<Policy, readonly Candidate[]>();

/** Stock fluids by their generic names, then solutions in the strengths that pharmacopoeias and labels list. */
function shelf(policy: Policy): readonly Candidate[] {
  const known = shelves.get(policy);
  if (known) return known;
  const made = [
    ...stockFluids().map((fluid) => stockCandidate(fluid, policy)),
    ...substances().flatMap((substance) => listedSolutions(substance, policy)),
  ];
  shelves.set(policy, made);
  return made;
}

function stockCandidate({ name, perLitre, sources }: StockFluid, policy: Policy): Candidate {
  return {
    kind: 'fluid',
    label: name,
    detail: shortVerdict(perLitre, policy.reference),
    documentation: `${describe(perLitre, policy)} ${sourcesText(sources)}`,
  };
}

function listedSolutions(substance: Substance, policy: Policy): readonly Candidate[] {
  const { family, listedStrengths, name } = substance;
  const plain = findSolute(keyOf(family), policy.pharmacopoeia)?.substance === substance ? family : name;
  return listedStrengths.flatMap(({ value, unit, source }) => {
    const label = `${plain} ${formatQuantity(value, unit, 12)}`;
    const read = strengthOf({ value, unit: findUnit(unit)! }, substance, null, false);
    if (!read.ok || findStockFluid(label)) return [];
    const litre = times(ofSolute(substance, read.perMl, ONE), LITRE);
    const documentation = `${describe(litre, policy)} ${sourcesText([source])}`;
    return [{ kind: 'solute' as const, label, detail: shortVerdict(litre, policy.reference), documentation }];
  });
}

/** Tonicity, free water, sodium and potassium of a liquid, in sentences. */
function describe(contents: Contents, policy: Policy): string {
  return `${verdict(contents, policy.reference)} ${firstNumbersText(contents, policy)}.`;
}

function sourcesText(sources: readonly string[]): string {
  return `Source: ${[...new Set(sources.map(sourceTitle))].join('; ')}.`;
}
