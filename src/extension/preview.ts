/** Infusion blocks in the Markdown preview of VS Code. */
import type MarkdownIt from 'markdown-it';
import * as vscode from 'vscode';
import { meniscusPreview } from '../preview/plugin.ts';
import { POLICY_FILE } from '../service/policy-name.ts';
import type { LeadsOut } from './links.ts';
import { PreviewSurroundings } from './preview-surroundings.ts';

/** What VS Code asks of an extension that contributes a markdown-it plugin. */
export interface PreviewExtension {
  extendMarkdownIt(md: MarkdownIt): MarkdownIt;
}

export function previewExtension(context: vscode.ExtensionContext, leadsOut: LeadsOut): PreviewExtension {
  const surroundings = new PreviewSurroundings(leadsOut);
  const isPolicy = ({ path }: vscode.Uri) => path.endsWith(`/${POLICY_FILE}`);
  const watcher = vscode.workspace.createFileSystemWatcher(`**/${POLICY_FILE}`);
  const askAgain = () => surroundings.askAgain();
  context.subscriptions.push(
    watcher,
    watcher.onDidCreate(askAgain),
    watcher.onDidChange(askAgain),
    watcher.onDidDelete(askAgain),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (isPolicy(document.uri) || surroundings.uses(document.uri)) askAgain();
    }),
    vscode.workspace.onDidCloseTextDocument(({ uri }) => {
      if (isPolicy(uri)) askAgain();
    }),
    vscode.workspace.onDidGrantWorkspaceTrust(askAgain),
    vscode.workspace.onDidChangeWorkspaceFolders(askAgain),
  );
  return {
    extendMarkdownIt: (md) =>
      md.use(meniscusPreview, {
        workedUnder: (env, source) => surroundings.of(noteOf(env), source),
      }),
  };
}

/** The preview draws with the document's address at hand; other callers of the renderer may not give one. */
function noteOf(env: unknown): vscode.Uri | null {
  const { currentDocument } = (env ?? {}) as { readonly currentDocument?: unknown };
  return currentDocument instanceof vscode.Uri ? currentDocument : null;
}
