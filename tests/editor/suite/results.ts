/** Results at the end of a line. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, rangeOf, saved, untitled } from './harness.ts';

async function resultsIn(document: vscode.TextDocument): Promise<readonly vscode.InlayHint[]> {
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  return vscode.commands.executeCommand<vscode.InlayHint[]>('vscode.executeInlayHintProvider', document.uri, whole);
}

async function volumeResult(document: vscode.TextDocument, volume: string): Promise<vscode.InlayHint> {
  return eventually(`the result "= ${volume}"`, async () =>
    (await resultsIn(document)).find(({ label }) => String(label).startsWith(`= ${volume}`)),
  );
}

// The volumes are sums: 1000 mL + 10 mL, 500 mL + 10 mL.
export const resultTests: EditorTest[] = [
  {
    name: 'the result of a mixture stands at the end of its first line',
    async run() {
      const { document } = await saved('gastric.md');
      const { position } = await volumeResult(document, '1010 mL');
      equal(position, document.lineAt(rangeOf(document, 'mixture gastric').start.line).range.end, 'place');
    },
  },
  {
    name: 'the result follows what is typed, in a note that was never saved',
    async run() {
      const editor = await untitled((await saved('gastric.md')).document.getText());
      await volumeResult(editor.document, '1010 mL');
      await editor.edit((edit) => edit.replace(rangeOf(editor.document, '1 L'), '500 mL'));
      await volumeResult(editor.document, '510 mL');
    },
  },
  {
    name: 'no results stand in the lines when the setting is off',
    async run() {
      const { document } = await saved('gastric.md');
      await volumeResult(document, '1010 mL');
      const setting = vscode.workspace.getConfiguration('meniscus.results');
      await setting.update('inline', false, vscode.ConfigurationTarget.Global);
      await eventually('no results', async () => (await resultsIn(document)).length === 0);
      await setting.update('inline', undefined, vscode.ConfigurationTarget.Global);
      await volumeResult(document, '1010 mL');
    },
  },
];
