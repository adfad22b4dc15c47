/** Fences in the editor's own Markdown: where our colours begin, and that they end. */
import { describe, expect, test } from 'vitest';
import { coloured, type Token, tokenise } from './tokenise.ts';

const WATER = ['1:constant.numeric', 'L:keyword.other.unit'];

/** Lines, by number, with a token inside our block. */
function embedded(tokens: readonly Token[]): number[] {
  const inside = tokens.filter(({ scopes }) => scopes.includes('meta.embedded.block.infusion'));
  return [...new Set(inside.map(({ line }) => line))];
}

describe('a fence', () => {
  test.each<[string, string[], number[]]>([
    ['of backticks', ['```infusion', '1 L water', '```', '1 L water'], [1]],
    ['of tildes', ['~~~infusion', '1 L water', '~~~', '1 L water'], [1]],
    ['in capitals', ['``` INFUSION', '1 L water', '```', '1 L water'], [1]],
    ['with more words', ['```infusion alone', '1 L water', '```', '1 L water'], [1]],
    ['of tildes with backticks behind', ['~~~infusion `a`', '1 L water', '~~~', '1 L water'], [1]],
    ['that is longer', ['`````infusion', '1 L water', '```', '1 L water', '`````', '1 L water'], [1, 2, 3]],
    ['closed by a longer one', ['```infusion', '1 L water', '`````', '1 L water'], [1]],
    ['not closed by the other kind', ['```infusion', '~~~', '1 L water', '```', '1 L water'], [1, 2]],
    ['that is indented', ['  ```infusion', '  1 L water', '  ```', '1 L water'], [1]],
    ['with blank lines', ['```infusion', '', '1 L water', '', '```', '1 L water'], [2]],
    ['below a paragraph', ['Prose.', '```infusion', '1 L water', '```', '1 L water'], [2]],
    ['in a list', ['- Prose.', '', '  ```infusion', '  1 L water', '  ```', '', '1 L water'], [3]],
    ['behind a list mark', ['- ```infusion', '  1 L water', '  ```', '', '1 L water'], [1]],
    ['in a numbered list', ['1. Prose.', '', '   ```infusion', '   1 L water', '   ```', '', '1 L water'], [3]],
    ['in a quotation', ['> ```infusion', '> 1 L water', '> ```', '> 1 L water'], [1]],
    ['in a quotation that ends first', ['> ```infusion', '> 1 L water', '', '1 L water'], [1]],
    ['in a list in a quotation', ['> - ```infusion', '>   1 L water', '>   ```', '', '1 L water'], [1]],
  ])('%s', async (_, lines, inside) => {
    const tokens = await tokenise(lines.join('\n'), 'text.html.markdown');
    const within = embedded(tokens).filter((line) => lines[line]!.trim() !== '');
    expect(within).toEqual(inside);
    const water = inside.filter((line) => lines[line]!.includes('water'));
    expect(coloured(tokens)).toEqual(water.flatMap(() => WATER));
  });

  test('is marked as the editor marks its own', async () => {
    const tokens = await tokenise('~~~ Infusion skip\n~~~', 'text.html.markdown');
    const scopes = tokens.map(({ text, scopes }) => [text.trim(), scopes.at(-1)]);
    expect(scopes).toContainEqual(['~~~', 'punctuation.definition.markdown']);
    expect(scopes).toContainEqual(['Infusion', 'fenced_code.block.language.markdown']);
    expect(scopes).toContainEqual(['skip', 'fenced_code.block.language.attributes.markdown']);
    expect(tokens.every(({ scopes }) => scopes.includes('markup.fenced_code.block.markdown'))).toBe(true);
  });

  test('holds a whole mixture', async () => {
    const text =
      '```infusion\nmixture gastric "Gastric"\n  1 L water # bag\nclaim free water 1 L\n```\n# Water for 1 L';
    expect(coloured(await tokenise(text, 'text.html.markdown'))).toEqual([
      'mixture:keyword.control',
      'gastric:entity.name.type',
      '"Gastric":string.quoted.double',
      ...WATER,
      '# bag:comment.line.number-sign',
      'claim:keyword.control',
      'free water:support.function.observable',
      ...WATER,
    ]);
  });
});

describe('no fence of ours', () => {
  test.each([
    ['another language', ['```text', '1 L water', '```']],
    ['a word that begins alike', ['```infusions', '1 L water', '```']],
    ['a second word', ['```text infusion', '1 L water', '```']],
    ['a fence shown in a longer one', ['````markdown', '```infusion', '1 L water', '```', '````']],
    ['a fence shown in one of another kind', ['~~~', '```infusion', '1 L water', '```', '~~~']],
    ['two ticks', ['``infusion', '1 L water', '``']],
    ['ticks behind', ['```infusion `a`', '1 L water', '```']],
    ['in a comment', ['<!--', '```infusion', '1 L water', '```', '-->']],
    ['prose', ['An infusion of 1 L water']],
  ])('%s', async (_, lines) => {
    const tokens = await tokenise(lines.join('\n'), 'text.html.markdown');
    expect(coloured(tokens)).toEqual([]);
    expect(embedded(tokens)).toEqual([]);
  });
});
