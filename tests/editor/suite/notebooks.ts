/** Markdown cells of a notebook are notes by themselves. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf } from './harness.ts';

const cell = '```infusion\nmixture bag\n  1 L sodum chloride 0.9%\n```\n';

export const notebookTests: EditorTest[] = [
  {
    name: 'a Markdown cell of a notebook has findings',
    async run() {
      const markdown = new vscode.NotebookCellData(vscode.NotebookCellKind.Markup, cell, 'markdown');
      const notebook = await vscode.workspace.openNotebookDocument(
        'jupyter-notebook',
        new vscode.NotebookData([markdown]),
      );
      await vscode.window.showNotebookDocument(notebook);
      const { document } = notebook.cellAt(0);
      const [finding] = await eventually('a finding', () => findings(document).length > 0 && findings(document));
      equal(finding?.range, rangeOf(document, 'sodum chloride'), 'place of the finding');
    },
  },
];
