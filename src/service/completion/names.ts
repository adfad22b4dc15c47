/** What stands in the clauses of an order and behind `accept`: names, routes, codes. */

import { findingsOf } from '../../checks/findings.ts';
import { CHECKS } from '../../checks/index.ts';
import { fixedObservables, routes } from '../../engine/index.ts';
import { snippet } from '../gaps.ts';
import { named, type Scene } from './scene.ts';
import type { Candidate } from './types.ts';

export function namesOf(kind: 'patient' | 'give', scene: Scene): readonly Candidate[] {
  return named(scene, kind).map(({ name, title, give }) => ({
    kind: kind === 'give' ? 'order' : 'patient',
    label: name!.text,
    detail: title?.text ?? give?.fluid.parts[0].words.text ?? 'patient',
  }));
}

export function routeCandidates(): readonly Candidate[] {
  return routes().map(({ name }) => ({ kind: 'route', label: name, detail: 'route' }));
}

export const SET: readonly Candidate[] = [
  { kind: 'word', label: 'a set of', snippet: snippet('a set of ‹› drops/mL') },
];

export function ions(): readonly Candidate[] {
  return fixedObservables()
    .filter(({ kind }) => kind === 'ion')
    .map(({ name }) => ({ kind: 'observable', label: name, detail: 'ion' }));
}

/** Those of the findings of the entity above first; an error is mended, not accepted. */
export function codes({ model, block, open }: Scene): readonly Candidate[] {
  const about = open && block.toSource({ start: open.header.start, end: open.end });
  const present = findingsOf(model).open.filter(
    ({ at, severity }) => severity !== 'error' && about && at.start >= about.start && at.end <= about.end,
  );
  const here = new Set(present.map(({ code }) => code));
  const others = CHECKS.filter(({ code, severity }) => severity !== 'error' && !here.has(code));
  return [
    ...[...here].map((code) => codeCandidate(code, 'found here')),
    ...others.map(({ code, severity }) => codeCandidate(code, severity)),
  ];
}

function codeCandidate(code: string, detail: string): Candidate {
  const title = CHECKS.find((check) => check.code === code)?.title;
  return {
    kind: 'code',
    label: code,
    text: `${code} because ""`,
    snippet: snippet(`${code} because "‹reason›"`),
    detail,
    ...(title && { documentation: `${title}.` }),
  };
}
