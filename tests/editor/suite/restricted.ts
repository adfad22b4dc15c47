/** What VS Code runs in its extension host of a window that does not trust its folder. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, saved } from './harness.ts';
import { runAll } from './runner.ts';
import { symbolsNamed } from './workspace.ts';

const restrictedTests: EditorTest[] = [
  {
    name: 'in a restricted window a note is worked out, and no policy is read',
    async run() {
      equal(vscode.workspace.isTrusted, false, 'whether the folder is trusted');
      const { document } = await saved('local/rounded.md');
      const [finding] = await eventually('a finding', () => findings(document).length > 0 && findings(document));
      equal(finding?.severity, vscode.DiagnosticSeverity.Information, 'severity without a policy');
    },
  },
  {
    name: 'in a restricted window no other note is read, and its names are put down to that',
    async run() {
      const { document } = await saved('local/using.md');
      const found = await eventually('a finding', () => findings(document).length > 0 && findings(document));
      equal(
        found.map(({ range }) => document.getText(range)),
        ['./formulary.md'],
        'place of the finding',
      );
      equal(found[0]?.message.includes('trusted'), true, 'that trust is named');
    },
  },
  {
    name: 'in a restricted window only open notes have symbols, and only their paths are offered',
    async run() {
      const { document } = await saved('local/using.md');
      await eventually('the symbol of the open note', async () => (await symbolsNamed('drip')).length === 1);
      equal((await symbolsNamed('carrier')).length, 0, 'symbols of a note that is not open');
      const list = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document.uri,
        rangeOf(document, './formulary').start,
      );
      const labels = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
      equal(labels.includes('./formulary.md'), false, 'whether the path of a note that is not open is offered');
    },
  },
];

export function run(): Promise<void> {
  return runAll(restrictedTests);
}
