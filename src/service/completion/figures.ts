/** What a `what if` line can take otherwise: a name, and the figures of what is named or open. */
import { keyOf, type Span } from '../../notation/index.ts';
import { type Entity, PATIENT_LINES } from '../../note/index.ts';
import { named, type Scene } from './scene.ts';
import type { Candidate } from './types.ts';

export function figuresFor({ start, end }: Span, scene: Scene): readonly Candidate[] {
  const first = scene.block.text.slice(start, end).split(/\s/)[0] ?? '';
  const named = namesIn(scene);
  const subject = named.find(({ name }) => name?.key === keyOf(first)) ?? null;
  if (subject) return figuresOf(subject).map((candidate) => withName(candidate, first));
  const names = named.map(({ name, title, kind }): Candidate => {
    const detail = title?.text ?? (kind === 'give' ? 'order' : kind);
    return { kind: kind === 'give' ? 'order' : (kind as 'mixture' | 'patient'), label: name!.text, detail };
  });
  return [...figuresOf(scene.open), ...names];
}

function namesIn(scene: Scene): readonly Entity[] {
  return named(scene, 'mixture', 'patient', 'give');
}

function figuresOf(entity: Entity | null): readonly Candidate[] {
  switch (entity?.kind) {
    case 'patient':
      return PATIENT_LINES.map(({ words, fits }) => ({ kind: 'word', label: words, detail: fits[0]! }));
    case 'mixture':
      return [{ kind: 'word', label: 'withdraw', detail: 'so much withdrawn first' }];
    case 'give':
      return [
        { kind: 'word', label: 'at', detail: 'another rate' },
        { kind: 'word', label: 'over', detail: 'another time' },
      ];
    default:
      return [];
  }
}

/** What is replaced begins with the name. */
function withName(candidate: Candidate, name: string): Candidate {
  return { ...candidate, label: `${name} ${candidate.label}` };
}
