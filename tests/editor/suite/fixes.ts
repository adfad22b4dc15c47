/** Quick fixes: offered where a finding is. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, untitled } from './harness.ts';

const naked = '```infusion\nmixture bag\n  1 L sodium chloride .9%\n```\n';

const swollen = '> ```infusion\n> mixture drip\n>   1 L dextrose 5%\n>   3 x 50 mL sodium bicarbonate 8.4%\n> ```\n';

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
  {
    name: 'a line is put in by a fix, behind the marks of its quotation',
    async run() {
      const { document } = await untitled(swollen);
      await eventually('a finding', () => findings(document).length > 0);
      const fix = await eventually('a quick fix', async () => {
        const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
          'vscode.executeCodeActionProvider',
          document.uri,
          rangeOf(document, '50 mL'),
        );
        return actions.find(({ title }) => title.startsWith('Write ‘withdraw 150 mL’'));
      });
      if (!fix.edit || !(await vscode.workspace.applyEdit(fix.edit))) throw new Error('the fix was not applied');
      equal(document.getText(), swollen.replace('>   3 x', '>   withdraw 150 mL\n>   3 x'), 'the note');
      await eventually(
        'no finding',
        () => !findings(document).some(({ code }) => JSON.stringify(code)?.includes('volume-added')),
      );
    },
  },
];
