/** The findings of a worked note, less those that it accepts with a reason. */
import { nearNames } from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Acceptance, Entity, Policy, WorkedNoteModel } from '../note/index.ts';
import { CHECKS, type Finding, findingOf, severityUnder } from './index.ts';

/** A finding that the note accepts. */
export interface Accepted {
  readonly finding: Finding;
  readonly reason: string;
}

export interface Findings {
  /** In the order of the note. */
  readonly open: readonly Finding[];
  readonly accepted: readonly Accepted[];
}

/** Errors are mended, not accepted. */
export function findingsOf(model: WorkedNoteModel): Findings {
  const found = model.faults.flatMap((located) => under(model.policy, findingOf(located)));
  const reasons = new Map<Finding, string>();
  const leftOver: Finding[] = [];
  const withheld = model.acceptances.length > 0 ? withheldIn(model) : new Set<Entity>();
  for (const acceptance of model.acceptances) {
    const { node } = acceptance;
    if (!node.reason) continue;
    const about = placeOf(acceptance);
    const here = within(found, about);
    const named = here.filter(({ code }) => keyed(code) === node.code.key);
    const accepted = named.filter(({ severity }) => severity !== 'error');
    for (const finding of accepted) if (!reasons.has(finding)) reasons.set(finding, node.reason.text);
    if (accepted.length > 0) continue;
    // Where something is to be mended first, what is found afterwards is not known.
    const mending = withheld.has(acceptance.entity) || here.some(({ severity }) => severity === 'error');
    if (named.length === 0 && mending && isKnown(node.code.key)) continue;
    leftOver.push(unused(acceptance, named.length > 0));
  }
  const open = [...found.filter((finding) => !reasons.has(finding)), ...leftOver];
  return {
    open: open.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end),
    accepted: [...reasons].map(([finding, reason]) => ({ finding, reason })),
  };
}

/** Findings in a place; they are in the order of the note. */
function within(found: readonly Finding[], { start, end }: SourceSpan): readonly Finding[] {
  let [low, high] = [0, found.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (found[middle]!.at.start < start) low = middle + 1;
    else high = middle;
  }
  const here: Finding[] = [];
  for (let index = low; index < found.length && found[index]!.at.start <= end; index += 1) {
    if (found[index]!.at.end <= end) here.push(found[index]!);
  }
  return here;
}

/** As local policy takes it; nothing where that switches it off. */
function under(policy: Policy, finding: Finding): Finding[] {
  const severity = severityUnder(policy, finding);
  if (!severity) return [];
  return [severity === finding.severity ? finding : { ...finding, severity }];
}

/** The line, or the whole entity, that an acceptance is about. */
function placeOf({ block, entity, line }: Acceptance): SourceSpan {
  return block.toSource(line ?? { start: entity.header.start, end: entity.end });
}

/** Mixtures, patients and orders without results: of them nothing is found. */
function withheldIn({ mixtures, patients, orders, unreadOrders }: WorkedNoteModel): ReadonlySet<Entity> {
  const worked = [...mixtures, ...patients, ...orders].filter(({ state }) => state !== 'complete');
  return new Set([...worked.map(({ entity }) => entity), ...unreadOrders]);
}

function unused({ node, block }: Acceptance, isError: boolean): Finding {
  const codes = CHECKS.map(({ code }) => code);
  const known = isKnown(node.code.key);
  return findingOf({
    at: block.place(node.code.span),
    fault: {
      code: 'unused-accept',
      found: node.code.text,
      why: isError ? 'error' : known ? 'nothing-found' : 'no-such-code',
      near: known ? [] : nearNames(node.code.key, codes),
    },
  });
}

function isKnown(key: string): boolean {
  return KNOWN.has(key);
}

function keyed(code: string): string {
  return code.replaceAll('-', ' ');
}

const KNOWN: ReadonlySet<string> = new Set(CHECKS.map(({ code }) => keyed(code)));
