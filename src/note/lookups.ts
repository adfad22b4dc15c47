/** What the working out of one thing may ask about others, and a list of what it asked. */
import type { Particle } from '../engine/index.ts';
import type { Surroundings } from './fluids.ts';
import type { Entity } from './model.ts';
import type { WorkedOrder, WorkedPatient } from './order-model.ts';
import type { OrderScene } from './orders/scene.ts';

type Worked = WorkedPatient | WorkedOrder;

export interface Lookups extends Omit<Surroundings, 'choices'> {
  /** Ions by key that the substances above declare, while substances are read. */
  readonly above: { get(key: string): Particle | undefined };
  readonly patients: { get(entity: Entity): WorkedPatient | undefined };
  readonly orders: { get(entity: Entity): WorkedOrder | undefined };
  scene(about: Worked): OrderScene;
}

/** Before patients and orders are read: no fluid rests on them. */
export const NO_BEDSIDE: Pick<Lookups, 'above' | 'patients' | 'orders' | 'scene'> = {
  above: new Map(),
  patients: new Map(),
  orders: new Map(),
  scene(about) {
    throw new Error(`asked too early about ‘${about.name}’`);
  },
};

/** What an answer is known again by: one value, or several. A thing stays the same object while nothing of it changes. */
type Seal = unknown;

type Asked<T> = (of: Lookups, about: T) => Seal;

const QUESTIONS = {
  name: (of, key) => of.scope.names.get(key),
  names: (of, _: null) => once(of.scope.names, () => [...of.scope.names.keys()]),
  entities: (of, _: null) => of.scope.entities,
  fluid: (of, entity) => of.worked.get(entity),
  imported(of, key) {
    const found = of.imports.get(key);
    if (!found) return null;
    const { kind, name, from } = found;
    const given = 'mixture' in found ? found.mixture : 'substance' in found ? found.substance : null;
    return [kind, name, from, given];
  },
  importedNames: (of, _: null) => of.imports.keys(),
  particles: (of, key) => of.imports.particles(key),
  explains: (of, key) => of.imports.explains(key),
  substance: (of, key) => of.own.substance(key),
  ion: (of, key) => of.own.ion(key)?.forms ?? null,
  declared: (of, entity) => of.own.of(entity),
  held: (of, key) => of.own.held(key),
  above: (of, key) => of.above.get(key),
  patient: (of, entity) => of.patients.get(entity),
  order: (of, entity) => of.orders.get(entity),
  scene(of, about) {
    const scene = of.scene(about);
    const { patient, orders, withheld } = scene;
    return once(scene, () => [patient, withheld, ...orders]);
  },
} satisfies Readonly<
  Record<'name' | 'imported' | 'particles' | 'explains' | 'substance' | 'ion' | 'held' | 'above', Asked<string>> &
    Record<'names' | 'entities' | 'importedNames', Asked<null>> &
    Record<'fluid' | 'declared' | 'patient' | 'order', Asked<Entity>> & { scene: Asked<Worked> }
>;

type Kind = keyof typeof QUESTIONS;
type About<K extends Kind> = Parameters<(typeof QUESTIONS)[K]>[1];

/** Every question that was asked, each once, with what its answer was known by. */
export class Trace {
  private readonly seen = new Map<Kind, Set<unknown>>();
  private readonly asked: { readonly kind: Kind; readonly about: unknown; readonly seal: Seal }[] = [];
  /** False where an answer rests on who asked before. */
  isLasting = true;

  ask<K extends Kind>(kind: K, about: About<K>, of: Lookups): void {
    const seen = this.seen.get(kind) ?? new Set();
    this.seen.set(kind, seen);
    if (seen.has(about)) return;
    seen.add(about);
    this.asked.push({ kind, about, seal: sealOf(kind, about, of) });
  }

  /** Whether the same questions have the same answers now. */
  holds(of: Lookups): boolean {
    return this.asked.every(({ kind, about, seal }) => sameSeal(seal, sealOf(kind, about as About<Kind>, of)));
  }
}

/** A class, since of an object that is written out with a getter each has a shape of its own, which costs time and memory. */
class TracedScope {
  readonly names: Lookups['scope']['names'];

  constructor(
    private readonly scope: Lookups['scope'],
    private readonly ask: <K extends Kind>(kind: K, about: About<K>) => void,
  ) {
    this.names = {
      get(key) {
        ask('name', key);
        return scope.names.get(key);
      },
      has(key) {
        ask('name', key);
        return scope.names.has(key);
      },
      keys() {
        ask('names', null);
        return scope.names.keys();
      },
    };
  }

  get entities(): Lookups['scope']['entities'] {
    this.ask('entities', null);
    return this.scope.entities;
  }
}

/** The same lookups, with everything that is asked of them noted. */
export function traced(of: Lookups, trace: Trace): Lookups {
  const ask = <K extends Kind>(kind: K, about: About<K>) => trace.ask(kind, about, of);
  const { scope, own, imports } = of;
  return {
    policy: of.policy,
    scope: new TracedScope(scope, ask),
    worked: {
      get(entity) {
        ask('fluid', entity);
        return of.worked.get(entity);
      },
    },
    imports: {
      get(key) {
        ask('imported', key);
        return imports.get(key);
      },
      keys() {
        ask('importedNames', null);
        return imports.keys();
      },
      particles(key) {
        ask('particles', key);
        return imports.particles(key);
      },
      explains(key) {
        ask('explains', key);
        return imports.explains(key);
      },
      withheld(key, span, report) {
        ask('explains', key);
        // It is said once for each name, at the first place that asks.
        if (imports.explains(key)) trace.isLasting = false;
        return imports.withheld(key, span, report);
      },
    },
    own: {
      declared: own.declared,
      of(entity) {
        ask('declared', entity);
        return own.of(entity);
      },
      substance(key) {
        ask('substance', key);
        return own.substance(key);
      },
      ion(key) {
        ask('ion', key);
        return own.ion(key);
      },
      observable(key) {
        ask('substance', key);
        ask('ion', key);
        return own.observable(key);
      },
      held(key) {
        ask('held', key);
        return own.held(key);
      },
      withheld(key, span, report) {
        ask('held', key);
        if (!own.held(key)) {
          ask('explains', key);
          if (imports.explains(key)) trace.isLasting = false;
        }
        return own.withheld(key, span, report);
      },
    },
    above: {
      get(key) {
        ask('above', key);
        return of.above.get(key);
      },
    },
    patients: {
      get(entity) {
        ask('patient', entity);
        return of.patients.get(entity);
      },
    },
    orders: {
      get(entity) {
        ask('order', entity);
        return of.orders.get(entity);
      },
    },
    scene(about) {
      ask('scene', about);
      return of.scene(about);
    },
  };
}

function sealOf<K extends Kind>(kind: K, about: About<K>, of: Lookups): Seal {
  return (QUESTIONS[kind] as Asked<About<K>>)(of, about);
}

function sameSeal(one: Seal, other: Seal): boolean {
  if (one === other) return true;
  if (!Array.isArray(one) || !Array.isArray(other) || one.length !== other.length) return false;
  return one.every((part, index) => part === other[index]);
}

const SEALS = new WeakMap<object, Seal>();

/** What many ask about is gone through once. */
function once(about: object, seal: () => Seal): Seal {
  const known = SEALS.get(about) ?? seal();
  SEALS.set(about, known);
  return known;
}
