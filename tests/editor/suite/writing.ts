/** Completion and renaming, as the editor asks for them. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, rangeOf, untitled } from './harness.ts';

const unfinished = '# Note\n\n```infusion\nmixture bag\n  1 L sodium chl\n```\n';
const twoBlocks =
  '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\nText.\n\n```infusion\nshow bag sodium\n```\n';

export const writingTests: EditorTest[] = [
  {
    name: 'the words of a fluid are completed as one',
    async run() {
      const { document } = await untitled(unfinished);
      const found = await eventually('a list', async () => {
        const list = await vscode.commands.executeCommand<vscode.CompletionList>(
          'vscode.executeCompletionItemProvider',
          document.uri,
          rangeOf(document, 'sodium chl').end,
        );
        return list.items.find(({ label }) => label === 'sodium chloride 0.9 %');
      });
      const range = found.range instanceof vscode.Range ? found.range : found.range?.inserting;
      equal(range && document.getText(range), 'sodium chl', 'what is replaced');
    },
  },
  {
    name: 'the list opens in the editor behind a space and writes what is taken',
    async run() {
      const editor = await untitled('```infusion\nmixture bag\n  1 L\n```\n');
      const end = rangeOf(editor.document, '1 L').end;
      editor.selection = new vscode.Selection(end, end);
      await eventually('an entry of the list in the note', async () => {
        await vscode.commands.executeCommand('type', { text: ' ' });
        await new Promise((resolve) => setTimeout(resolve, 1_000));
        await vscode.commands.executeCommand('acceptSelectedSuggestion');
        if (/1 L +sodium chloride 0\.2 %/.test(editor.document.getText())) return true;
        await vscode.commands.executeCommand('deleteLeft');
        return false;
      });
    },
  },
  {
    name: 'a mixture is renamed in all its blocks',
    async run() {
      const { document } = await untitled(twoBlocks);
      const edit = await eventually('the edits of a new name', async () => {
        const edits = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
          'vscode.executeDocumentRenameProvider',
          document.uri,
          rangeOf(document, 'bag').start,
          'carrier',
        );
        return edits.size > 0 && edits;
      });
      if (!(await vscode.workspace.applyEdit(edit))) throw new Error('the name was not changed');
      equal(document.getText(), twoBlocks.replaceAll('bag', 'carrier'), 'the note');
    },
  },
];
