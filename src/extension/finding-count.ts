/** "3 findings" in the status bar, about the open note; nothing when there is none. */
import * as vscode from 'vscode';
import { UNTRUSTED } from './policy.ts';

export function showFindingCount(): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('findings', vscode.StatusBarAlignment.Left);
  item.name = 'Meniscus: Findings';
  item.command = 'workbench.actions.view.problems';

  const update = (): void => {
    item.tooltip = `Meniscus: Show the findings${vscode.workspace.isTrusted ? '' : `\n${UNTRUSTED}`}`;
    const note = openNote();
    const count = note ? findingsIn(note.uri) : 0;
    item.text = count === 1 ? '1 finding' : `${count} findings`;
    if (count > 0) item.show();
    else item.hide();
  };

  update();
  return vscode.Disposable.from(
    item,
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.window.onDidChangeVisibleTextEditors(update),
    vscode.languages.onDidChangeDiagnostics(update),
    vscode.workspace.onDidGrantWorkspaceTrust(update),
  );
}

/** The note that is being written, or the one that still stands beside a preview that has the focus. */
function openNote(): vscode.TextDocument | undefined {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  const editors = activeTextEditor ? [activeTextEditor] : visibleTextEditors;
  return editors.map(({ document }) => document).find(({ languageId }) => languageId === 'markdown');
}

function findingsIn(uri: vscode.Uri): number {
  return vscode.languages.getDiagnostics(uri).filter(({ source }) => source === 'Meniscus').length;
}
