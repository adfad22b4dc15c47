/** Format Document: what the editor's own command does with a note. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, untitled } from './harness.ts';

const untidy = '# Note\n\n* a\n\n```infusion\nMixture bag\n1 litre sodium chloride 0.9 %\n```\n';
const tidy = '# Note\n\n* a\n\n```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n';

export const formattingTests: EditorTest[] = [
  {
    name: 'a note is formatted in its blocks alone',
    async run() {
      const { document } = await untitled(untidy);
      const edits = await eventually('a formatter', async () => {
        const found = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
          'vscode.executeFormatDocumentProvider',
          document.uri,
          { tabSize: 4, insertSpaces: true },
        );
        return found !== undefined && found.length > 0 && found;
      });
      const change = new vscode.WorkspaceEdit();
      change.set(document.uri, edits);
      if (!(await vscode.workspace.applyEdit(change))) throw new Error('the edits were not applied');
      equal(document.getText(), tidy, 'the note');
    },
  },
];
