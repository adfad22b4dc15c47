/** The command that brings the bound numbers and tables of the note in front up to date. */
import * as vscode from 'vscode';
import type { BaseLanguageClient, TextEdit } from 'vscode-languageclient';

/** What the server answers to `meniscus/updates`: edits, and the version of the note that they are for. */
interface Updates {
  readonly version: number;
  readonly edits: readonly TextEdit[];
}

export function registerUpdateNumbers(client: BaseLanguageClient): vscode.Disposable {
  return vscode.commands.registerCommand('meniscus.updateNumbers', () => updateNumbers(client));
}

async function updateNumbers(client: BaseLanguageClient): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== 'markdown') {
    void vscode.window.showInformationMessage('Open a Markdown note to update its numbers.');
    return;
  }
  const uri = client.code2ProtocolConverter.asUri(document.uri);
  const updates = await client.sendRequest<Updates | null>('meniscus/updates', { uri });
  if (!updates || document.version !== updates.version) return;
  if (updates.edits.length === 0) {
    void vscode.window.showInformationMessage('No number or table of this note is to be changed.');
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  edit.set(document.uri, await client.protocol2CodeConverter.asTextEdits([...updates.edits]));
  await vscode.workspace.applyEdit(edit);
}
