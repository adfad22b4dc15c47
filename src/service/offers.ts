/** What an author can do with a line besides mending it: take a finding with a reason, and write a solved amount out. */
import { exactText } from '../engine/index.ts';
import { newLines } from '../markdown/new-lines.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Solved, WorkedNoteModel } from '../note/index.ts';
import { type ShownFinding, withGaps } from './fixes.ts';
import type { CodeFix } from './types.ts';

export function offersOf(
  model: WorkedNoteModel,
  findings: readonly ShownFinding[],
  within: SourceSpan,
): readonly CodeFix[] {
  const touches = ({ start, end }: SourceSpan) => start <= within.end && end >= within.start;
  const here = findings.filter(({ shown }) => touches(shown.span));
  const acceptances = here.flatMap((found) => acceptance(model, found) ?? []);
  const amounts = model.mixtures.flatMap(({ entity: { block }, solved }) =>
    solved
      .map((amount) => ({ amount, at: block.toSource(amount.span) }))
      .filter(({ at }) => touches(at))
      .flatMap(({ amount, at }) => amountsOf(amount, model.source.slice(at.start, at.end), at)),
  );
  return [...acceptances, ...amounts];
}

/** An error is mended; what does not stand on a line of a mixture, patient or order cannot be accepted there. */
function acceptance(model: WorkedNoteModel, { finding, shown }: ShownFinding): CodeFix | null {
  const { code, severity, at } = finding;
  if (severity === 'error' || code === 'unused-accept') return null;
  const entities = model.scopes.flatMap(({ entities }) => entities);
  const entity = entities.find(({ block, header, end }) => {
    const place = model.blocks.includes(block) && block.toSource({ start: header.start, end });
    return place && place.start <= at.start && at.end <= place.end;
  });
  if (!entity) return null;
  const { block, header } = entity;
  const onHeader = at.start <= block.toSource(header).end;
  // Left empty, the reason is asked for by a finding of its own.
  const line = `${onHeader ? '  ' : ''}accept ${code} because "‹›"`;
  return {
    title: `Accept ‘${code}’, with a reason to be written`,
    finding: shown,
    changesNumber: false,
    preferred: false,
    ...withGaps(newLines(model.source, block, at.start, { lines: [line], put: 'below' })),
  };
}

/** In place of the question mark: as it works out, and as it can be measured. */
function amountsOf({ value, measured }: Solved, written: string, { start }: SourceSpan): readonly CodeFix[] {
  const rest = written.slice(1);
  const offer = (number: string, how: string): CodeFix => ({
    title: `Write ‘${number}${rest}’, ${how}`,
    finding: null,
    edits: [{ span: { start, end: start + 1 }, text: number }],
    snippet: null,
    changesNumber: true,
    preferred: false,
  });
  const exact = exactText(value);
  const near = measured && exactText(measured.value);
  const offers = [offer(exact, 'as it works out')];
  return measured && near && near !== exact
    ? [...offers, offer(near, `as can be measured (${measured.with})`)]
    : offers;
}
