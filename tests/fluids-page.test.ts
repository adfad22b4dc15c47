import { describe, expect, it } from 'vitest';
import { fluidsPage } from '../scripts/fluids-page.ts';
import { stockFluids } from '../src/engine/index.ts';

describe('the page of the stock fluids', () => {
  const page = fluidsPage();

  it('has a section for each fluid, in the order of the data', () => {
    const headings = [...page.matchAll(/^### (.+)$/gm)].map(([, name]) => name);
    expect(headings).toEqual(stockFluids().map(({ name }) => name));
  });

  it('says in each what it holds, how it acts and where that is from', () => {
    for (const section of page.split(/^### /m).slice(1)) {
      for (const word of ['Holds', ' mOsm/L', 'electrolyte-free water', 'sodium load', 'Composition: ']) {
        expect(section, word).toContain(word);
      }
    }
  });

  it('sets the stated figure beside the one that is worked out, and explains the difference', () => {
    // Product label of lactated Ringer's: calcium 3 mEq/L, rounded.
    const section = /^### lactated Ringer's\n[\s\S]*?(?=\n### )/m.exec(page)![0];
    expect(section).toContain('| calcium | 3 mEq/L | 2.721 mEq/L | Prescribing information of Lactated Ringer');
    expect(section).toContain('Labels round the calcium to 3 mEq/L; the salts give 2.72');
  });

  it('leaves nothing unsaid or unrounded', () => {
    expect(page).not.toMatch(/undefined|null|NaN|\d\.\d{7}/);
  });
});
