/** In which order a scope's mixtures are worked out: what one is made from comes first. */
import type { FluidNode } from '../notation/ast.ts';
import type { Entity, Scope } from './model.ts';
import { isStep } from './steps.ts';

export interface Order {
  /** Mixtures in an order in which each can be worked out; those in a circle are left out. */
  readonly ready: readonly Entity[];
  /** Each circle once, in the order of its names: `a`, `b` when a is made from b and b from a. */
  readonly circles: readonly (readonly Entity[])[];
}

/** Linear in the mixtures and their lines; no recursion, so that a chain of any length is followed. */
export function workingOrder(scope: Scope): Order {
  const mixtures = scope.entities.filter(({ kind }) => kind === 'mixture');
  const needs = new Map<Entity, readonly Entity[]>();
  const waiting = new Map<Entity, number>();
  const usedBy = new Map<Entity, Entity[]>();
  for (const mixture of mixtures) {
    const parts = madeFrom(mixture, scope);
    if (parts.length === 0) continue;
    needs.set(mixture, parts);
    waiting.set(mixture, parts.length);
    for (const part of parts) {
      const users = usedBy.get(part);
      if (users) users.push(mixture);
      else usedBy.set(part, [mixture]);
    }
  }
  const ready = mixtures.filter((mixture) => !needs.has(mixture));
  for (let next = 0; next < ready.length; next++) {
    for (const user of usedBy.get(ready[next]!) ?? []) {
      const left = waiting.get(user)! - 1;
      waiting.set(user, left);
      if (left === 0) ready.push(user);
    }
  }
  if (ready.length === mixtures.length) return { ready, circles: [] };
  const done = new Set(ready);
  const circles = circlesAmong(
    mixtures.filter((mixture) => !done.has(mixture)),
    needs,
  );
  return { ready, circles };
}

/** The note's own mixtures that a mixture's lines name, each once. */
function madeFrom({ body }: Entity, scope: Scope): readonly Entity[] {
  const keys = NAMED.get(body) ?? namedIn(body);
  NAMED.set(body, keys);
  const found: Entity[] = [];
  for (const key of keys) {
    const own = scope.names.get(key);
    if (own && own !== 'duplicate' && own.kind === 'mixture') found.push(own);
  }
  return found;
}

/** Lines stay the same while the note is edited elsewhere. */
const NAMED = new WeakMap<Entity['body'], readonly string[]>();

/** Every key by which the lines name a fluid, each once. */
function namedIn(body: Entity['body']): readonly string[] {
  const found = new Set<string>();
  for (const node of body) {
    if (!isStep(node)) continue;
    const fluids: FluidNode[] = [];
    if ('fluid' in node) fluids.push(node.fluid);
    if (node.kind === 'addition' && node.vehicle) fluids.push(node.vehicle.fluid);
    for (const fluid of fluids) {
      for (const part of fluid.parts) if (!part.as) found.add(part.words.key);
    }
  }
  return [...found];
}

/**
 * Among mixtures none of which can be worked out, follows each one's first unfinished part until a mixture comes
 * round again: that run is a circle. Mixtures that only lead into a circle belong to none.
 */
function circlesAmong(stuck: readonly Entity[], needs: ReadonlyMap<Entity, readonly Entity[]>): (readonly Entity[])[] {
  const left = new Set(stuck);
  const seen = new Set<Entity>();
  const circles: Entity[][] = [];
  for (const start of stuck) {
    const path: Entity[] = [];
    const onPath = new Map<Entity, number>();
    let at: Entity | undefined = start;
    while (at && !seen.has(at)) {
      seen.add(at);
      onPath.set(at, path.length);
      path.push(at);
      at = needs.get(at)?.find((part) => left.has(part));
    }
    const from = at ? onPath.get(at) : undefined;
    if (from !== undefined) circles.push(path.slice(from));
  }
  return circles;
}
