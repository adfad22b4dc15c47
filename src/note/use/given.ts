/** What a note gives to those that use it: its mixtures, stocks and substances, worked out. */
import type { Particle, Substance } from '../../engine/index.ts';
import type { Entity, WorkedMixture } from '../model.ts';
import { isPlace } from '../own-substances.ts';
import type { ScopeFluids } from '../scope-fluids.ts';
import type { Beyond, Refusal } from './refusal.ts';

/** What a name of another note stands for. */
export type Thing = { readonly name: string } & (
  | { readonly kind: 'fluid'; readonly mixture: WorkedMixture }
  | { readonly kind: 'substance'; readonly substance: Substance }
  /** It has no results there, or is given twice. */
  | { readonly kind: 'withheld'; readonly why: 'no-results' | 'twice' }
);

/** Immutable; made once for each state of a note. */
export interface Given {
  /** By key. */
  readonly names: ReadonlyMap<string, Thing>;
  /** Ions that its substances declare, by key. */
  readonly ions: ReadonlyMap<string, Particle>;
  /** Keys of ions whose substance could not be read. */
  readonly lostIons: ReadonlySet<string>;
}

/** Why the note after `use` gives nothing. */
export type NotGiven = { readonly why: Refusal } | { readonly circle: readonly string[] };

/** What other notes give to a note that is being worked out. */
export interface UsedNotes {
  /** By the path after `use`, in a block that shares its names or in one of its own. */
  of(path: string, alone: boolean): { readonly given: Given; readonly beyond: Beyond | null } | NotGiven;
  /** What the formulary of local policy gives, for every block. */
  readonly formulary: readonly { readonly path: string; readonly given: Given }[];
}

/** Where no other note can be read. */
export const NO_NOTES: UsedNotes = { of: () => ({ why: 'none' }), formulary: [] };

const GIVING: ReadonlySet<Entity['kind']> = new Set(['mixture', 'stock', 'substance']);

/** Patients and orders are not taken over, nor what the note itself uses. */
export function givenBy({ scope, own, worked }: ScopeFluids): Given {
  const names = new Map<string, Thing>();
  for (const entity of scope.entities) {
    const { kind, name } = entity;
    const bound = name && scope.names.get(name.key);
    if (!name || !bound || !GIVING.has(kind)) continue;
    names.set(name.key, { name: name.text, ...(bound === 'duplicate' ? TWICE : thing(entity)) });
  }

  function thing(entity: Entity) {
    if (entity.kind === 'substance') {
      const substance = own.of(entity);
      return substance && !isPlace(substance) ? ({ kind: 'substance', substance } as const) : NO_RESULTS;
    }
    const mixture = worked.get(entity);
    return mixture?.contents ? ({ kind: 'fluid', mixture } as const) : NO_RESULTS;
  }

  return { names, ions: own.declared.ions, lostIons: own.declared.lost };
}

const TWICE = { kind: 'withheld', why: 'twice' } as const;
const NO_RESULTS = { kind: 'withheld', why: 'no-results' } as const;
