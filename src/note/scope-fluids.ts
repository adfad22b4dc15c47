/** The substances, stocks and mixtures of one scope, each worked out after those that it is made from. */
import type { Surroundings } from './fluids.ts';
import { workMixture } from './mixture.ts';
import type { Entity, Scope, WorkedMixture } from './model.ts';
import { workingOrder } from './order.ts';
import { ownSubstances } from './own-substances.ts';
import type { Policy } from './policy.ts';
import { type Desk, Reporter } from './reporter.ts';
import { gather, type ReadBlock } from './scope.ts';
import { workStock } from './stock.ts';
import type { UsedNotes } from './use/given.ts';
import { importsOf } from './use/imports.ts';

/** What every lookup of a scope draws on. */
export interface ScopeFluids extends Omit<Surroundings, 'choices'> {
  readonly worked: ReadonlyMap<Entity, WorkedMixture>;
}

/** Total; adds what is wrong to the desk's faults. */
export function workFluids(blocks: readonly ReadBlock[], policy: Policy, used: UsedNotes, desk: Desk): ScopeFluids {
  const scope = gather(blocks, desk.faults);
  const imports = importsOf(scope, used, desk);
  const own = ownSubstances(scope, imports, desk);
  const worked = new Map<Entity, WorkedMixture>();
  const around = { scope, imports, own, worked, policy };
  for (const entity of scope.entities) {
    if (entity.kind === 'stock') worked.set(entity, workStock(entity, around, desk));
  }
  const { ready, circles } = workingOrder(scope);
  for (const circle of circles) reportCircle(circle, desk);
  for (const entity of ready) worked.set(entity, workMixture(entity, around, desk));
  // What is in a circle, or made from it, is bound all the same: its other lines may have faults of their own.
  for (const entity of stuckIn(scope, worked)) {
    const cause = entity.block.toSource(entity.name?.span ?? entity.header);
    worked.set(entity, workMixture({ ...entity, spoiledBy: entity.spoiledBy ?? cause }, around, desk));
  }
  return around;
}

function stuckIn({ entities }: Scope, worked: ReadonlyMap<Entity, WorkedMixture>): readonly Entity[] {
  return entities.filter((entity) => entity.kind === 'mixture' && !worked.has(entity));
}

function reportCircle(entities: readonly Entity[], desk: Desk): void {
  const first = entities[0]!;
  const names = entities.map(({ name }) => name?.text ?? '');
  new Reporter(first.block, desk).at(first.name?.span ?? first.header, { code: 'circular-mixture', names });
}
