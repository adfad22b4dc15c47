/** Works out one mixture: its lines are bound, its unknown amounts solved for, its steps carried out. */
import { type Contents, closed, type Decimal, type MixFault, mix, overload } from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { ClaimNode, Span, Step } from '../notation/ast.ts';
import { Choices } from './choices.ts';
import { extremesOf } from './extremes.ts';
import { FluidBinder, type Surroundings } from './fluids.ts';
import type { Entity, Solved, WorkedMixture, WorkedStep } from './model.ts';
import { type Desk, overloadFault, Reporter } from './reporter.ts';
import { scrutinise } from './scrutiny.ts';
import { amountSpan, type BoundStep, isStep, StepBinder } from './steps.ts';
import { type Answer, TargetSolver } from './targets.ts';

interface BoundLine {
  readonly node: Step;
  readonly step: BoundStep;
}

/** Total; the mixture's own mixtures have been worked out before. Adds what is wrong to the desk's faults. */
export function workMixture(entity: Entity, around: Omit<Surroundings, 'choices'>, desk: Desk): WorkedMixture {
  const choices = new Choices();
  const worked = new MixtureWorker(entity, { choices, ...around }, desk).work();
  if (!worked.contents) return worked;
  scrutinise(worked, worked.contents, around.policy.reference, new Reporter(entity.block, desk));
  const amounts = worked.solved.map(({ value }) => value);
  const extremes = extremesOf(entity, choices, desk, (combination) => {
    const varied = { choices: new Choices(combination), ...around };
    return new MixtureWorker(entity, varied, { faults: [], mentions: [] }).work(amounts).contents;
  });
  return { ...worked, extremes };
}

class MixtureWorker {
  private readonly report: Reporter;
  private readonly binder: FluidBinder;
  private readonly steps: StepBinder;

  constructor(
    private readonly entity: Entity,
    private readonly around: Surroundings,
    desk: Desk,
  ) {
    this.report = new Reporter(entity.block, desk);
    this.binder = new FluidBinder(around, this.report);
    this.steps = new StepBinder(this.binder, around.choices, this.report);
  }

  /** `amounts`: unknowns that are already solved for. */
  work(amounts?: readonly Decimal[]): WorkedMixture {
    const lines: BoundLine[] = [];
    const targets: ClaimNode[] = [];
    let cause = this.entity.spoiledBy;
    for (const node of this.entity.body) {
      if (node.kind === 'target') targets.push(node);
      if (!isStep(node)) continue;
      const step = this.steps.step(node);
      if (step.ok) lines.push({ node, step });
      else cause ??= step.cause;
    }
    if (cause) return this.withheld('incomplete', cause);
    if (!lines.some(({ step }) => step.liquid)) {
      return this.withheld('incomplete', this.noVolume(lines.at(-1)?.node ?? null));
    }

    const open = lines.map(({ step }) => step.step);
    const { unknowns } = this.steps;
    const solver = new TargetSolver(this.entity, open, unknowns, this.around, this.report);
    const answer: Answer = amounts ? { ok: true, amounts, solved: [], surplus: [] } : solver.answer(targets);
    if (!answer.ok) return this.withheld('unsolved', answer.cause);

    const mixed = mix(closed(open, answer.amounts));
    if (mixed.fault) return this.withheld('incomplete', this.refused(mixed.fault, lines));
    if (mixed.contents.volume.lte(0)) return this.withheld('incomplete', this.noVolume(null));
    const tooMuch = this.tooMuch(mixed.contents, lines);
    if (tooMuch) return this.withheld('incomplete', tooMuch);

    const steps: WorkedStep[] = mixed.stages.map((stage, index) => ({
      node: lines[index]!.node,
      brings: stage.added,
      before: stage.before,
      after: stage.after,
      working: lines[index]!.step.working,
    }));
    return {
      ...this.withheld('incomplete', null),
      state: 'complete',
      contents: mixed.contents,
      steps,
      ...solvedOf(answer),
    };
  }

  private withheld(state: WorkedMixture['state'], cause: SourceSpan | null): WorkedMixture {
    const { entity, binder } = this;
    return {
      entity,
      name: entity.name?.text ?? '',
      state,
      cause,
      contents: null,
      extremes: [],
      steps: [],
      assumptions: binder.assumptions,
      solved: [],
      claims: [],
    };
  }

  /** `dry`: the last line of a mixture to which none brings liquid. */
  private noVolume(dry: Step | null): SourceSpan {
    const { name, header } = this.entity;
    const last = dry && this.withAcceptances(dry.span);
    return this.report.at(name?.span ?? header, { code: 'missing-volume', name: name?.text ?? '', last }).cause;
  }

  /** To the last acceptance that speaks of the line. */
  private withAcceptances({ start, end }: Span): Span {
    const below = /^(?:[^\n]*\n[ \t]*accept(?![^ \t]))*/i.exec(this.entity.block.text.slice(end))![0];
    return { start: below === '' ? start : end + below.length, end: end + below.length };
  }

  private refused(fault: MixFault, lines: readonly BoundLine[]): SourceSpan {
    const place = amountSpan(lines[fault.step]!.node);
    return fault.code === 'withdraw-too-much'
      ? this.report.at(place, { code: fault.code, asked: fault.asked, held: fault.held }).cause
      : this.report.at(place, { code: fault.code, held: fault.held, to: fault.to }).cause;
  }

  /** The first line that brings a solute of which there is more than dissolves. */
  private tooMuch(contents: Contents, lines: readonly BoundLine[]): SourceSpan | null {
    const over = overload(contents);
    if (!over) return null;
    const line = lines.find(({ step }) => step.brings?.solutes.has(over.substance)) ?? lines[lines.length - 1]!;
    return this.report.at(amountSpan(line.node), overloadFault(over)).cause;
  }
}

function solvedOf({ solved, surplus }: Extract<Answer, { ok: true }>): {
  solved: readonly Solved[];
  claims: readonly ClaimNode[];
} {
  return { solved, claims: surplus };
}
