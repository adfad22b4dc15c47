/** Opens the worksheet of the mixture at the cursor as a new Markdown document beside the note. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

type Answer = { readonly markdown: string } | { readonly reason: string } | null;

export async function openWorksheet(client: BaseLanguageClient): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'markdown') return tell('open a note, and put the cursor on a mixture');
  const { uri, isUntitled } = editor.document;
  const answer = await client.sendRequest<Answer>('meniscus/worksheet', {
    uri: client.code2ProtocolConverter.asUri(uri),
    path: isUntitled ? null : vscode.workspace.asRelativePath(uri, false),
    position: client.code2ProtocolConverter.asPosition(editor.selection.active),
  });
  if (!answer) return tell('the note is not read yet; try again');
  if ('reason' in answer) return tell(answer.reason);
  const document = await vscode.workspace.openTextDocument({ language: 'markdown', content: answer.markdown });
  await vscode.window.showTextDocument(document, vscode.ViewColumn.Beside);
}

function tell(reason: string): void {
  void vscode.window.showInformationMessage(`No worksheet: ${reason}.`.replace(/([.?])\.$/, '$1'));
}
