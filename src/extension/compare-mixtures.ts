/** The command that sets mixtures of a note side by side: a block at its end, its results to be typed over. */
import * as vscode from 'vscode';
import { outlineOf } from '../service/index.ts';

/** So many stand ticked when the list opens: more are no longer read at one look. */
const TICKED = 6;
const RESULTS = 'sodium, osmolarity, free water, tonicity in the body';

export async function compareMixtures(): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'markdown') return;
  const fluids = outlineOf(editor.document.getText()).filter(
    ({ kind, name }) => name !== '' && (kind === 'mixture' || kind === 'stock'),
  );
  if (fluids.length < 2) {
    void vscode.window.showInformationMessage('To compare, a note needs two mixtures or stocks with names.');
    return;
  }
  const picked = await vscode.window.showQuickPick(
    fluids.map(({ name, detail }, index) => ({ label: name, description: detail, picked: index < TICKED })),
    { canPickMany: true, ignoreFocusOut: true, placeHolder: 'Mixtures and stocks to set side by side' },
  );
  if (!picked || picked.length < 2) return;
  const { document } = editor;
  const end = document.lineAt(document.lineCount - 1).range.end;
  const lead = document.lineAt(end.line).isEmptyOrWhitespace ? '\n' : '\n\n';
  const block = new vscode.SnippetString(`${lead}\`\`\`infusion\n`)
    .appendText(`compare ${picked.map(({ label }) => label).join(', ')} by `)
    .appendPlaceholder(RESULTS)
    .appendText('\n```\n');
  await editor.insertSnippet(block, end);
}
