/** Cards: what the pointer over a name, an ingredient or a number brings up. */
import * as vscode from 'vscode';
import { type EditorTest, eventually, rangeOf, saved } from './harness.ts';

/** The cards over the first `text` of the note that is saved as gastric.md, as one Markdown text. */
async function cardOver(text: string): Promise<string> {
  const { document } = await saved('gastric.md');
  return eventually(`a card over "${text}"`, async () => {
    const place = rangeOf(document, text).start.translate(0, 1);
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
      'vscode.executeHoverProvider',
      document.uri,
      place,
    );
    const cards = hovers.flatMap(({ contents }) => contents as vscode.MarkdownString[]);
    const trusted = cards.find(({ isTrusted, supportHtml }) => isTrusted || supportHtml);
    if (trusted) throw new Error('a card may run commands or HTML');
    return cards.length > 0 && cards.map(({ value }) => value).join('\n');
  });
}

function shows(name: string, over: string, words: readonly string[]): EditorTest {
  return {
    name,
    async run() {
      const card = await cardOver(over);
      const missing = words.filter((word) => !card.includes(word));
      if (missing.length > 0)
        throw new Error(`the card lacks ${missing.map((word) => `"${word}"`).join(', ')}:\n${card}`);
    },
  };
}

// 1000 mL + 10 mL = 1010 mL; 10 mL x 2 mmol/mL = 20 mmol; 20 mmol ÷ 1.01 L = 19.8 mmol/L.
export const hoverTests: EditorTest[] = [
  shows('the card of a mixture has its title, its volume and a picture', 'gastric "', [
    'Gastric replacement',
    '1010 mL',
    '](data:image/svg+xml',
  ]),
  shows('the card of an ingredient says what its line brings', 'potassium chloride 2', ['20 mmol']),
  shows('the card of a claimed number says what it is', '20 mmol/L', ['19.8']),
];
