/** The lines of a scope that ask, as tasks: what each comes to is remembered by itself. */
import { Choices } from './choices.ts';
import { Asker } from './claims.ts';
import type { Lookups } from './lookups.ts';
import type { Present, Task } from './memo.ts';
import type { Entity, LooseLine, WorkedClaim, WorkedComparison, WorkedShow } from './model.ts';
import type { Desk } from './reporter.ts';

/** At most one of each. */
export interface Answered {
  readonly claim: WorkedClaim | null;
  readonly show: WorkedShow | null;
  readonly comparison: WorkedComparison | null;
}

export function looseLine(line: LooseLine): Task<readonly Answered[]> {
  return {
    kind: 'line',
    of: line,
    work: (around, desk) => [answered(line, around, desk)],
    moved: (results, now) => results.map((result) => inBlock(result, line.block, now)),
  };
}

/** Lines of a mixture or stock that are checked as claims. */
export function ownClaims(entity: Entity): Task<readonly Answered[]> {
  const { block } = entity;
  return {
    kind: 'claims',
    of: entity,
    work(around, desk) {
      const mixture = around.worked.get(entity);
      return (mixture?.claims ?? []).map((node) => answered({ node, block, open: entity }, around, desk));
    },
    moved: (results, now) => results.map((result) => inBlock(result, block, now)),
  };
}

function answered({ node, block, open }: LooseLine, around: Lookups, desk: Desk): Answered {
  const asker = new Asker(block, { ...around, choices: new Choices() }, desk);
  const isClaim = node.kind === 'claim' || node.kind === 'target';
  return {
    claim: isClaim ? asker.claim(node, open) : null,
    show: node.kind === 'show' ? asker.show(node, open) : null,
    comparison: node.kind === 'compare' ? asker.compare(node) : null,
  };
}

function inBlock({ claim, show, comparison }: Answered, block: LooseLine['block'], now: Present): Answered {
  return {
    claim: claim && { ...claim, block },
    show: show && { ...show, block, open: show.open && now.thing(show.open) },
    comparison: comparison && { ...comparison, block },
  };
}
