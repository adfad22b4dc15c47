/** The substances, stocks and mixtures of one scope, each worked out after those that it is made from. */
import { type Lookups, NO_BEDSIDE } from './lookups.ts';
import type { Task, Worker } from './memo.ts';
import { workMixture } from './mixture.ts';
import type { Entity, Scope, WorkedMixture } from './model.ts';
import { workingOrder } from './order.ts';
import { ownSubstances } from './own-substances.ts';
import type { Policy } from './policy.ts';
import { type Desk, Reporter } from './reporter.ts';
import { workStock } from './stock.ts';
import type { UsedNotes } from './use/given.ts';
import { importsOf } from './use/imports.ts';

/** What every lookup of a scope draws on. */
export interface ScopeFluids extends Lookups {
  readonly scope: Scope;
  readonly worked: ReadonlyMap<Entity, WorkedMixture>;
}

/** Total; adds what is wrong to the desk's faults. */
export function workFluids(scope: Scope, policy: Policy, used: UsedNotes, worker: Worker, desk: Desk): ScopeFluids {
  const imports = importsOf(scope, used, desk);
  const own = ownSubstances(scope, imports, { policy, worker }, desk);
  const worked = new Map<Entity, WorkedMixture>();
  const around: ScopeFluids = { scope, imports, own, worked, policy, ...NO_BEDSIDE };
  for (const entity of scope.entities) {
    if (entity.kind === 'stock') worked.set(entity, worker.do(STOCK, entity, around, desk));
  }
  const { ready, circles } = workingOrder(scope);
  for (const circle of circles) reportCircle(circle, desk);
  for (const entity of ready) worked.set(entity, worker.do(MIXTURE, entity, around, desk));
  // What is in a circle, or made from it, is bound all the same: its other lines may have faults of their own.
  for (const entity of stuckIn(scope, worked)) worked.set(entity, worker.do(STUCK_MIXTURE, entity, around, desk));
  return around;
}

const STOCK: Task<Entity, WorkedMixture> = { kind: 'stock', work: workStock };
const MIXTURE: Task<Entity, WorkedMixture> = { kind: 'mixture', work: workMixture };
const STUCK_MIXTURE: Task<Entity, WorkedMixture> = {
  kind: 'stuck mixture',
  work(entity, around, desk) {
    const cause = entity.block.place(entity.name?.span ?? entity.header);
    return workMixture({ ...entity, spoiledBy: entity.spoiledBy ?? cause }, around, desk);
  },
};

function stuckIn({ entities }: Scope, worked: ReadonlyMap<Entity, WorkedMixture>): readonly Entity[] {
  return entities.filter((entity) => entity.kind === 'mixture' && !worked.has(entity));
}

function reportCircle(entities: readonly Entity[], desk: Desk): void {
  const first = entities[0]!;
  const names = entities.map(({ name }) => name?.text ?? '');
  new Reporter(first.block, desk).at(first.name?.span ?? first.header, { code: 'circular-mixture', names });
}
