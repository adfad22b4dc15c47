/** Notes of the workspace that are not open: used, named, looked through. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, saved } from './harness.ts';

export async function symbolsNamed(name: string): Promise<readonly vscode.SymbolInformation[]> {
  const found = await vscode.commands.executeCommand<vscode.SymbolInformation[]>(
    'vscode.executeWorkspaceSymbolProvider',
    name,
  );
  return found.filter((symbol) => symbol.name === name);
}

export const workspaceTests: EditorTest[] = [
  {
    name: 'a note that another one uses is read, and its fluid counts',
    async run() {
      const { document } = await saved('local/using.md');
      const [finding] = await eventually('a finding', () => findings(document).length > 0 && findings(document));
      equal(finding && document.getText(finding.range), '150 mmol/L', 'place of the finding');
    },
  },
  {
    name: 'symbols of notes that are not open are found',
    async run() {
      await saved('local/using.md');
      const [symbol] = await eventually('a symbol', async () => {
        const found = await symbolsNamed('carrier');
        return found.length > 0 && found;
      });
      equal(symbol?.location.uri.path.endsWith('/local/formulary.md'), true, 'the note that it is in');
      equal(symbol?.location.range.start.line, 3, 'its line');
    },
  },
  {
    name: 'behind ‘use’ the other notes of the folder are offered',
    async run() {
      const { document } = await saved('local/using.md');
      const found = await eventually('paths', async () => {
        const list = await vscode.commands.executeCommand<vscode.CompletionList>(
          'vscode.executeCompletionItemProvider',
          document.uri,
          rangeOf(document, './formulary').start,
        );
        const paths = list.items.filter(({ kind }) => kind === vscode.CompletionItemKind.File);
        return paths.length > 0 && paths.map(({ label }) => (typeof label === 'string' ? label : label.label));
      });
      equal(found.slice(0, 2), ['./formulary.md', './rounded.md'], 'paths, the nearest first');
      equal(found.includes('../ward.md'), true, 'a note of the folder above');
    },
  },
];
