/** What holds of any notes that use each other. No source: our own design. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diagnosticsOf } from '../../src/service/diagnostics.ts';
import { createNoteService, readClosure } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { runs } from '../runs.ts';
import { blocks, policyWith, worked } from './used-notes.ts';

const FLUIDS = fc.constantFrom(
  'sodium chloride 0.9%',
  'dextrose 5%',
  'water',
  'potassium chloride 2 mmol/mL',
  'sodum chloride',
  'mix0',
  'mix1',
  'mix2',
  'mix3',
);
const STEPS = fc.array(fc.tuple(fc.integer({ min: 1, max: 900 }), FLUIDS), { minLength: 1, maxLength: 3 });
const mixture = (name: string) =>
  STEPS.map((steps) => `mixture ${name}\n${steps.map(([volume, fluid]) => `  ${volume} mL ${fluid}`).join('\n')}`);
const PATHS = fc.constantFrom(
  './n0.md',
  './n1.md',
  './n2.md',
  './n3.md',
  './n4.md',
  './none.md',
  '../out.md',
  '/abs.md',
);

describe('any notes that use each other', () => {
  const graph = fc.array(
    fc
      .tuple(
        fc.array(PATHS, { maxLength: 4 }),
        fc.array(fc.constantFrom('mix0', 'mix1', 'mix2', 'mix3'), { maxLength: 3 }),
      )
      .chain(([paths, names]) =>
        fc
          .tuple(...names.map(mixture))
          .map((mixtures) => [...paths.map((path) => `use ${path}`), ...mixtures].join('\n')),
      ),
    { minLength: 1, maxLength: 5 },
  );

  it('end, and come to the same in whatever order they are read', async () => {
    await fc.assert(
      fc.asyncProperty(graph, fc.array(fc.nat(20), { maxLength: 30 }), fc.boolean(), async (made, delays, local) => {
        const texts = new Map(made.map((block, index) => [`n${index}.md`, fenced(block)]));
        const formulary = local ? ['./n1.md', './none.md'] : [];
        const policy = policyWith(formulary);
        const root = { at: 'n0.md', text: texts.get('n0.md')! };
        let asked = 0;
        const closure = await readClosure(
          root,
          { at: 'p.json', paths: formulary },
          {
            async read(_from, path) {
              for (let turn = delays[asked++ % Math.max(delays.length, 1)] ?? 0; turn > 0; turn--) await null;
              const at = path.replace('./', '');
              const text = texts.get(at);
              if (path.startsWith('../')) return { why: 'above' };
              return text === undefined ? { why: 'none' } : { at, text };
            },
          },
        );
        const plain = worked(Object.fromEntries(texts), formulary);
        const note = createNoteService().work('n0', root.text, policy, closure);
        expect(note.diagnostics()).toEqual(diagnosticsOf(plain));
        for (const { span } of note.diagnostics()) expect(span.end).toBeLessThanOrEqual(root.text.length);
        for (const { cause } of plain.mixtures) if (cause) expect(cause.end).toBeLessThanOrEqual(root.text.length);
        for (let offset = 0; offset < root.text.length; offset += 7) note.hover(offset);
      }),
      runs(200),
    );
  });
});

describe('using a note', () => {
  /** Names that do not clash: the used note has its own. */
  const used = fc.tuple(mixture('mix0'), mixture('mix1'), mixture('mix2'));
  const user = mixture('bag');

  it('equals writing its blocks into the note', () => {
    fc.assert(
      fc.property(used, user, (given, own) => {
        const question = 'show bag sodium\ncompare mix0, mix1, bag by sodium, osmolarity';
        const apart = worked(blocks({ 'a.md': `use ./f.md\n${own}\n${question}`, 'f.md': given.join('\n') }));
        const together = worked(blocks({ 'a.md': `${given.join('\n')}\n${own}\n${question}` }));
        const bagOf = (model: typeof apart) => {
          const bag = model.mixtures.find(({ name }) => name === 'bag')!;
          return [bag.state, bag.contents?.volume.toString(), amounts(bag.contents?.particles)];
        };
        expect(bagOf(apart)).toEqual(bagOf(together));
        const rowsOf = (model: typeof apart) =>
          model.comparisons.map(({ rows }) =>
            rows.map(({ name, contents }) => [name, contents.volume.toString(), amounts(contents.particles)]),
          );
        expect(rowsOf(apart)).toEqual(rowsOf(together));
        expect(apart.shows.length).toBe(together.shows.length);
      }),
      runs(200),
    );
  });

  function amounts(particles: ReadonlyMap<{ readonly name: string }, { toString(): string }> | undefined) {
    return [...(particles ?? [])].map(([{ name }, amount]) => `${name} ${amount}`).sort();
  }
});
