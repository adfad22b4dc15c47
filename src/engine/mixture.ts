/** Mixtures: steps carried out in the order written. */

import { type Contents, EMPTY, mapped, minus, plus, times } from './contents.ts';
import { atMost, type Decimal, nearlyEqual } from './decimal.ts';

/** One step, its fluid worked out. Volumes in mL. */
export type MixStep =
  | { readonly kind: 'add'; readonly contents: Contents }
  /** `perMl` is what 1 mL of the fluid holds; `to` in mL. */
  | { readonly kind: 'make-up'; readonly perMl: Contents; readonly to: Decimal }
  | { readonly kind: 'withdraw'; readonly volume: Decimal }
  | { readonly kind: 'exchange'; readonly volume: Decimal; readonly perMl: Contents };

/** `step` counts from 0; volumes in mL. */
export type MixFault =
  | { readonly code: 'withdraw-too-much'; readonly step: number; readonly asked: Decimal; readonly held: Decimal }
  | { readonly code: 'final-volume-too-small'; readonly step: number; readonly held: Decimal; readonly to: Decimal };

/** What one step found, brought, took out and left. */
export interface Stage {
  readonly before: Contents;
  readonly added: Contents | null;
  readonly removed: Contents | null;
  readonly after: Contents;
}

/** What a mixture came to, step by step; with a fault, as far as it went. */
export interface Mixed {
  readonly contents: Contents;
  readonly stages: readonly Stage[];
  readonly fault: MixFault | null;
}

/** Carries out the steps; stops at the first that cannot be done, and keeps what came before it. */
export function mix(steps: readonly MixStep[]): Mixed {
  const stages: Stage[] = [];
  let contents = EMPTY;
  for (const [index, step] of steps.entries()) {
    const fault = faultOf(step, index, contents);
    if (fault) return { contents, stages, fault };
    const stage = carriedOut(step, contents);
    stages.push(stage);
    contents = stage.after;
  }
  return { contents, stages, fault: null };
}

function faultOf(step: MixStep, index: number, { volume: held }: Contents): MixFault | null {
  if (step.kind === 'add') return null;
  if (step.kind === 'make-up') {
    return atMost(held, step.to) ? null : { code: 'final-volume-too-small', step: index, held, to: step.to };
  }
  return atMost(step.volume, held) ? null : { code: 'withdraw-too-much', step: index, asked: step.volume, held };
}

function carriedOut(step: MixStep, before: Contents): Stage {
  const added = addedBy(step, before);
  const removed = step.kind === 'withdraw' || step.kind === 'exchange' ? share(before, step.volume) : null;
  const rest = removed ? minus(before, removed) : before;
  return { before, added, removed, after: added ? plus(rest, added) : rest };
}

function addedBy(step: MixStep, before: Contents): Contents | null {
  switch (step.kind) {
    case 'add':
      return step.contents;
    case 'make-up':
      return times(step.perMl, step.to.minus(before.volume));
    case 'exchange':
      return times(step.perMl, step.volume);
    case 'withdraw':
      return null;
  }
}

/** A volume out of well-mixed contents. All of it leaves nothing behind, not even the last digit of a division. */
function share(contents: Contents, volume: Decimal): Contents {
  if (nearlyEqual(volume, contents.volume)) return contents;
  return mapped(contents, (amount) => amount.times(volume).div(contents.volume));
}
