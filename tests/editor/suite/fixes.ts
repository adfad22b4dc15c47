/** Quick fixes: offered where a finding is. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, untitled } from './harness.ts';

const naked = '```infusion\nmixture bag\n  1 L sodium chloride .9%\n```\n';

export const fixTests: EditorTest[] = [
  {
    name: 'a decimal without its zero is mended by its quick fix',
    async run() {
      const { document } = await untitled(naked);
      await eventually('a finding', () => findings(document).length > 0);
      const fix = await eventually('a quick fix', async () => {
        const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
          'vscode.executeCodeActionProvider',
          document.uri,
          rangeOf(document, '.9'),
          vscode.CodeActionKind.QuickFix.value,
        );
        return actions.find(({ title }) => title === 'Write ‘0.9’');
      });
      if (!fix.edit || !(await vscode.workspace.applyEdit(fix.edit))) throw new Error('the fix was not applied');
      equal(document.getText(), naked.replace('.9%', '0.9%'), 'the note');
      await eventually('no finding', () => findings(document).length === 0);
    },
  },
];
