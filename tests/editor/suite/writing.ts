/** Completion and renaming, as the editor asks for them. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, rangeOf, untitled } from './harness.ts';

const unfinished = '# Note\n\n```infusion\nmixture bag\n  1 L sodium chl\n```\n';
const twoBlocks =
  '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\nText.\n\n```infusion\nshow bag sodium\n```\n';

const linked = `# Drips

The bag holds [154 mmol/L](infusion:bag/sodium).

<!-- infusion:compare bag by sodium -->

|  | sodium, mmol/L |
| --- | ---: |
| bag | 154 |

<!-- /infusion -->

\`\`\`infusion
mixture bag
  1 L sodium chloride 0.9%
\`\`\`
`;

async function labelsAt(document: vscode.TextDocument, position: vscode.Position): Promise<readonly string[]> {
  const list = await vscode.commands.executeCommand<vscode.CompletionList>(
    'vscode.executeCompletionItemProvider',
    document.uri,
    position,
  );
  return list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
}

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
  {
    name: 'a mixture is renamed from a link, in prose, in its table and in its block',
    async run() {
      const { document } = await untitled(linked);
      const edit = await eventually('the edits of a new name', async () => {
        const edits = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
          'vscode.executeDocumentRenameProvider',
          document.uri,
          rangeOf(document, 'bag/sodium').start,
          'carrier',
        );
        return edits.size > 0 && edits;
      });
      if (!(await vscode.workspace.applyEdit(edit))) throw new Error('the name was not changed');
      const expected = linked.replaceAll('bag', 'carrier').replace('The carrier', 'The bag');
      equal(document.getText(), expected, 'the note');
    },
  },
  {
    name: 'a link in prose leads to the line that gives its name',
    async run() {
      const { document } = await untitled(linked);
      const line = rangeOf(document, 'mixture bag').start.line + 1;
      await eventually('the link', async () => {
        const links = await vscode.commands.executeCommand<vscode.DocumentLink[]>(
          'vscode.executeLinkProvider',
          document.uri,
        );
        return links.some(({ target }) => target?.fragment.startsWith(`L${line},`));
      });
    },
  },
  {
    name: 'a link is completed: names behind ‘infusion:’, results behind the slash',
    async run() {
      const { document } = await untitled(linked);
      const name = rangeOf(document, 'infusion:bag').end.translate(0, -3);
      await eventually('the name', async () => (await labelsAt(document, name)).includes('bag'));
      const results = await labelsAt(document, rangeOf(document, 'bag/sodium').end);
      equal(results.includes('free water'), true, 'a result is offered');
    },
  },
];
