/** The commands of the palette. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { compareMixtures } from './compare-mixtures.ts';
import { openWorksheet } from './worksheet.ts';
import { WorkspaceCheck } from './workspace-check.ts';

export function registerCommands(client: BaseLanguageClient): vscode.Disposable {
  const check = new WorkspaceCheck(client);
  return vscode.Disposable.from(
    check,
    vscode.commands.registerCommand('meniscus.openWorksheet', () => openWorksheet(client)),
    vscode.commands.registerCommand('meniscus.checkWorkspace', () => check.run()),
    vscode.commands.registerCommand('meniscus.insertMixture', insertMixture),
    vscode.commands.registerCommand('meniscus.compareMixtures', compareMixtures),
    vscode.commands.registerCommand('meniscus.restart', () => restart(client)),
    vscode.commands.registerCommand('meniscus.showLog', () => client.outputChannel.show()),
  );
}

/** A server that answers no more is left behind. */
async function restart(client: BaseLanguageClient): Promise<void> {
  await client.stop().catch(() => {});
  await client.start();
}

/** One mixture in a block, its parts to be typed over. */
function mixtureSnippet(lead: string): vscode.SnippetString {
  return new vscode.SnippetString(`${lead}\`\`\`infusion\nmixture `)
    .appendPlaceholder('name')
    .appendText(' "')
    .appendPlaceholder('Title')
    .appendText('"\n  ')
    .appendPlaceholder('1 L')
    .appendText(' ')
    .appendPlaceholder('sodium chloride 0.9%')
    .appendText('\n  ')
    .appendPlaceholder('10 mL')
    .appendText(' ')
    .appendPlaceholder('potassium chloride 2 mmol/mL')
    .appendTabstop(0)
    .appendText('\n```\n');
}

/** A block with one mixture, below the line of the cursor where something stands on that; in a new note where none is open. */
async function insertMixture(): Promise<void> {
  const open = vscode.window.activeTextEditor;
  const editor =
    open?.document.languageId === 'markdown'
      ? open
      : await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'markdown' }));
  const line = editor.document.lineAt(editor.selection.active.line);
  const lead = line.isEmptyOrWhitespace ? '' : '\n\n';
  await editor.insertSnippet(mixtureSnippet(lead), line.range.end);
}
