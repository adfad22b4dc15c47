/** A version of a note goes on saying what it said while later ones are worked out. No source: our own design. */
import { expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';
import type { WorkedNote } from '../../src/service/types.ts';

const NOTE = `Words.

\`\`\`infusion
mixture bag
  1 L sodium chloride 0.9%
  20 mL potassium chloride 2 mmol/mL
  1.0 L water
  show sodium
\`\`\`

- in a list

  \`\`\`infusion
  give bag at 100 mL/h for 5 h
  give nothing known at 5 mL/h
  \`\`\`

The bag holds [1 mmol/L](infusion:bag/sodium).
`;

/** Everything that can be asked of a note of that source. */
function saidBy(note: WorkedNote, source: string): unknown {
  const whole = { start: 0, end: source.length };
  const offsets = Array.from({ length: source.length / 5 }, (_, index) => index * 5);
  return {
    diagnostics: note.diagnostics(),
    results: note.results(whole),
    fixes: note.fixes(whole),
    offers: note.offers(whole),
    formatting: note.formatting(),
    updates: note.updates(),
    hovers: offsets.map((offset) => note.hover(offset)?.plain.text),
    names: offsets.map((offset) => note.navigation.name(offset)),
    renamed: note.navigation.rename(source.indexOf('bag'), 'sack'),
    links: note.navigation.links(),
    symbols: note.navigation.symbols(),
    folds: note.navigation.folds(),
    completions: note.complete(source.indexOf('  show') + 7, null),
  };
}

const VERSIONS = [NOTE, `Many more words. ${NOTE}`, NOTE.replace('20 mL', '30 mL'), `\n\n${NOTE}`];

it('is said by each version as by the only one', () => {
  const service = createNoteService();
  const notes = VERSIONS.map((source) => service.work('a', source));
  const alone = VERSIONS.map((source) => saidBy(createNoteService().work('a', source), source));
  expect(notes.map((note, index) => saidBy(note, VERSIONS[index]!))).toEqual(alone);
  expect(notes.toReversed().map((note, index) => saidBy(note, VERSIONS.at(-1 - index)!))).toEqual(alone.toReversed());
});

it('is not disturbed by a fence that is tried out', () => {
  const service = createNoteService();
  const source = `\`\`\n\n${NOTE}`;
  const note = service.work('a', source);
  const before = note.navigation.symbols();
  expect(note.complete(2, '`').items.length).toBeGreaterThan(0);
  expect(note.navigation.symbols()).toEqual(before);
});
