/** A fault is reported once, at its cause, and withholds its own mixture and what is made from it: nothing else. */
import { describe, expect, it } from 'vitest';
import { particleById } from '../../src/engine/index.ts';
import { fenced, found, mixturesOf } from '../annotated.ts';

const MISSPELT = `mixture good
  1 L sodium chloride 0.9%
mixture bad
  1 L sodum chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
  claim potassium 999 mmol/L
mixture made-from-bad
  100 mL bad
  claim sodium 1 mmol/L
mixture also-good
  1 L sodium chloride 0.45%
show bad sodium
compare bad, good by sodium`;

describe('a misspelt solute', () => {
  it('is reported once, with nothing downstream', () => {
    expect(found(fenced(MISSPELT))).toEqual(['unknown-name: sodum chloride']);
  });

  it('shows no number for its mixture and all numbers of the others', () => {
    const mixtures = mixturesOf(MISSPELT);
    expect([...mixtures.values()].map(({ name, state }) => [name, state])).toEqual([
      ['good', 'complete'],
      ['bad', 'incomplete'],
      ['made-from-bad', 'incomplete'],
      ['also-good', 'complete'],
    ]);
    expect(mixtures.get('bad')?.contents).toBeNull();
    expect(mixtures.get('made-from-bad')?.cause).toEqual(mixtures.get('bad')?.cause);
  });
});

describe('names', () => {
  it('are looked up in all blocks of the note, whatever their order', () => {
    const source = `${fenced('mixture first\n  1 L other')}\ntext\n\n${fenced('mixture other\n  1 L sodium chloride 0.9%')}`;
    expect(found(source)).toEqual([]);
  });

  it('stay inside a block of its own scope', () => {
    const source = `${fenced('mixture bag\n  1 L sodium chloride 0.9%', { info: 'alone' })}\n\n${fenced('mixture n\n  1 L bag')}`;
    expect(found(source)).toEqual(['unknown-name: bag']);
  });

  it('of a skipped block do not exist, and its faults are not reported', () => {
    const source = `${fenced('mixture bag\n  nonsense here', { info: 'skip' })}\n\n${fenced('mixture n\n  1 L bag')}`;
    expect(found(source)).toEqual(['unknown-name: bag']);
  });

  it('may take the place of a built-in fluid', () => {
    const block =
      'mixture ringers\n  1 L sodium chloride 0.9%\nmixture bag\n  1 L Ringers\n  claim potassium 0 mmol/L\n  claim sodium 154 mmol/L';
    expect(found(fenced(block))).toEqual([]);
  });

  it('given twice leave each with its results, and nothing made from them', () => {
    const mixtures = mixturesOf(
      'mixture a\n  1 L sodium chloride 0.9%\nmixture A\n  1 L dextrose 5%\nmixture b\n  1 L a',
    );
    expect([...mixtures.values()].map(({ name, state }) => [name, state])).toEqual([
      ['a', 'complete'],
      ['A', 'complete'],
      ['b', 'incomplete'],
    ]);
  });
});

describe('mixtures made from each other', () => {
  it('are reported once a circle; what leads into it is withheld without a finding', () => {
    const block =
      'mixture a\n  1 L b\nmixture b\n  1 L c\nmixture c\n  1 L a\nmixture leads-in\n  1 L a\nmixture apart\n  1 L sodium chloride 0.9%';
    expect(found(fenced(block))).toEqual(['circular-mixture: a']);
    expect(mixturesOf(block).get('apart')?.state).toBe('complete');
    expect(mixturesOf(block).get('leads-in')?.state).toBe('incomplete');
  });

  it('in a chain of four thousand are worked out', () => {
    const chain = Array.from({ length: 4_000 }, (_, index) => `mixture n${index}\n  1 L n${index + 1}`);
    const block = `${chain.join('\n')}\nmixture n4000\n  1 L sodium chloride 0.9%`;
    const mixtures = mixturesOf(block);
    expect(mixtures.size).toBe(4_001);
    expect(mixtures.get('n0')?.contents?.particles.get(particleById('sodium')!)?.toFixed(1)).toBe('154.0');
  });
});

describe('both readings of a mass', () => {
  it('2 g magnesium as magnesium sulfate is refused with both', async () => {
    const { findings } = await import('../annotated.ts');
    const [finding] = findings(fenced('mixture bag\n  1 L sodium chloride 0.9%\n  2 g magnesium as magnesium sulfate'));
    // 8.12 mEq in 1 g of the heptahydrate (label): 2 g hold 8.1 mmol; 2 g of the element are 82 mmol.
    expect(finding?.code).toBe('elemental-or-salt');
    expect(finding?.message).toMatch(/8\.11 mmol/);
    expect(finding?.message).toMatch(/82\.3 mmol/);
  });
});

describe('claims', () => {
  const claim = (text: string) => found(fenced(`mixture bag\n  1 L sodium chloride 0.45%\n  ${text}`));

  it('hold within half a unit of the last place written, ends included', () => {
    expect(claim('claim sodium 77 mmol/L')).toEqual([]);
    expect(claim('claim sodium 77.0 mmol/L')).toEqual([]);
    expect(claim('claim sodium 77.1 mmol/L')).toEqual(['nominal-claim: 77.1 mmol/L']);
    expect(claim('claim sodium 76 mmol/L')).toEqual(['nominal-claim: 76 mmol/L']);
    expect(claim('claim sodium 70 mmol/L')).toEqual(['claim-mismatch: 70 mmol/L']);
  });

  it('hold within the tolerance written, and are held to it', () => {
    expect(claim('claim sodium 80 mmol/L within 4 %')).toEqual([]);
    expect(claim('claim sodium 80 mmol/L within 3.1 mmol/L')).toEqual([]);
    expect(claim('claim sodium 80 mmol/L within 1 %')).toEqual(['claim-mismatch: 80 mmol/L']);
  });

  it('may be of the whole bag, of another fluid, in another unit', () => {
    expect(claim('claim sodium 77 mmol')).toEqual([]);
    expect(claim("claim lactated Ringer's sodium 130 mEq/L")).toEqual([]);
    expect(claim('claim sodium chloride 0.9% osmolarity 308 mOsm/L')).toEqual([]);
    expect(claim('claim sodium chloride 0.45 %')).toEqual([]);
    expect(claim('claim free water 50 %')).toEqual([]);
  });

  it('name the factor when there is one', async () => {
    const { findings } = await import('../annotated.ts');
    const message = (block: string) => findings(fenced(block)).find(({ code }) => code === 'claim-mismatch')?.message;
    expect(message('mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 15.4 mmol/L')).toMatch(/factor of 10\b/);
    expect(message("mixture bag\n  1 L lactated Ringer's\n  claim calcium 2.7 mmol/L")).toMatch(/factor of 2\b/);
    expect(message('mixture bag\n  500 mL sodium chloride 0.9%\n  claim sodium 77 mmol/L')).toMatch(/per litre/);
    expect(
      message('mixture bag\n  1 L dextrose 5%\n  150 mL sodium bicarbonate 8.4%\n  claim sodium 150 mmol/L'),
    ).toMatch(/150 mL/);
  });
});
