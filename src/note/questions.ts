/** The lines of a scope that ask, as tasks: what each comes to is remembered by itself. */
import { Choices } from './choices.ts';
import { Asker } from './claims.ts';
import type { Lookups } from './lookups.ts';
import type { Task } from './memo.ts';
import type { Entity, LooseLine, WorkedClaim, WorkedComparison, WorkedShow } from './model.ts';
import type { Desk } from './reporter.ts';

/** At most one of each. */
export interface Answered {
  readonly claim: WorkedClaim | null;
  readonly show: WorkedShow | null;
  readonly comparison: WorkedComparison | null;
}

export const LOOSE_LINE: Task<LooseLine, Answered> = { kind: 'line', work: answered };

/** Lines of a mixture or stock that are checked as claims. */
export const OWN_CLAIMS: Task<Entity, readonly Answered[]> = {
  kind: 'claims',
  work(entity, around, desk) {
    const { block } = entity;
    const mixture = around.worked.get(entity);
    return (mixture?.claims ?? []).map((node) => answered({ node, block, open: entity }, around, desk));
  },
};

function answered({ node, block, open }: LooseLine, around: Lookups, desk: Desk): Answered {
  const asker = new Asker(block, { choices: new Choices(), ...around }, desk);
  const isClaim = node.kind === 'claim' || node.kind === 'target';
  return {
    claim: isClaim ? asker.claim(node, open) : null,
    show: node.kind === 'show' ? asker.show(node, open) : null,
    comparison: node.kind === 'compare' ? asker.compare(node) : null,
  };
}
