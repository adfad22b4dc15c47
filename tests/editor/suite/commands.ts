/** The commands of the palette. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, untitled } from './harness.ts';

const bag = '```infusion\nmixture bag "A bag"\n  1 L sodium chloride 0.9%\n```\n';

export const commandTests: EditorTest[] = [
  {
    name: 'the worksheet of the mixture at the cursor opens as a Markdown document that was never saved',
    async run() {
      const editor = await untitled(bag);
      const { start } = rangeOf(editor.document, '1 L');
      editor.selection = new vscode.Selection(start, start);
      await vscode.commands.executeCommand('meniscus.openWorksheet');
      const sheet = await eventually('the worksheet', () =>
        vscode.workspace.textDocuments.find((open) => open.getText().startsWith('# Worksheet: A bag')),
      );
      equal(sheet.languageId, 'markdown', 'language');
      equal(sheet.isUntitled, true, 'never saved');
      await vscode.window.showTextDocument(sheet);
      await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
      await vscode.window.showTextDocument(editor.document);
    },
  },
  {
    name: 'checking the workspace finds slips in notes that are not open',
    async run() {
      await vscode.commands.executeCommand('meniscus.checkWorkspace');
      await eventually('a finding in misspelt.md', () =>
        vscode.languages
          .getDiagnostics()
          .some(
            ([uri, found]) => uri.path.endsWith('/misspelt.md') && found.some(({ source }) => source === 'Meniscus'),
          ),
      );
    },
  },
  {
    name: 'a mixture that is inserted is a block without a finding',
    async run() {
      const { document } = await untitled('');
      await vscode.commands.executeCommand('meniscus.insertMixture');
      await eventually('the block', () => document.getText().includes('1 L sodium chloride 0.9%'));
      equal(document.getText().startsWith('```infusion\nmixture name "Title"\n'), true, 'the block');
      equal(findings(document).length, 0, 'number of findings');
    },
  },
  {
    name: 'mixtures that are compared stand in a block at the end of the note, without a finding',
    async run() {
      const note = '```infusion\nmixture one\n  1 L water\nmixture two\n  1 L dextrose 5%\n```';
      const { document } = await untitled(note);
      await eventually('the list', async () => {
        const done = vscode.commands.executeCommand('meniscus.compareMixtures');
        // A list that is accepted before its ticks are drawn has none.
        await new Promise((resolve) => setTimeout(resolve, 500));
        await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
        await done;
        return document.getText().length > note.length;
      });
      const added = 'compare one, two by sodium, osmolarity, free water, tonicity in the body';
      equal(document.getText(), `${note}\n\n\`\`\`infusion\n${added}\n\`\`\`\n`, 'the note');
      equal(findings(document).filter(({ severity }) => severity < 2).length, 0, 'errors and warnings');
    },
  },
];
