/** Finds the policy of a note for the server: in open editors before the disk, and never outside the workspace. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { POLICY_FILE } from '../service/policy-name.ts';

/** Said where it matters: in the log, and on the count of findings. */
export const UNTRUSTED = 'Local policy and other notes are not read until this workspace is trusted.';

/** For every policy of the workspace, so that a change on the disk reaches the server. */
export function watchPolicies(): vscode.FileSystemWatcher {
  return vscode.workspace.createFileSystemWatcher(`**/${POLICY_FILE}`);
}

/** Answers the server, and tells it when the answer may have become another. */
export function servePolicies(client: BaseLanguageClient): vscode.Disposable {
  const askAgain = (): void => void client.sendNotification('meniscus/policyChanged');
  if (!vscode.workspace.isTrusted) client.info(UNTRUSTED, undefined, false);
  return vscode.Disposable.from(
    client.onRequest('meniscus/policy', async ({ uri }: { readonly uri: string }) => {
      const found = await policyOf(client.protocol2CodeConverter.asUri(uri));
      return found && { uri: client.code2ProtocolConverter.asUri(found.uri), text: found.text };
    }),
    vscode.workspace.onDidGrantWorkspaceTrust(askAgain),
    vscode.workspace.onDidChangeWorkspaceFolders(askAgain),
  );
}

interface Found {
  readonly uri: vscode.Uri;
  readonly text: string;
}

/** The nearest in the note's folder or above it, up to its workspace folder. */
export async function policyOf(note: vscode.Uri): Promise<Found | null> {
  const top = vscode.workspace.getWorkspaceFolder(note)?.uri;
  if (!top || !vscode.workspace.isTrusted) return null;
  for (const folder of foldersUpTo(note, top)) {
    const uri = vscode.Uri.joinPath(folder, POLICY_FILE);
    const text = openText(uri) ?? (await savedText(uri));
    if (text !== null) return { uri, text };
  }
  return null;
}

function foldersUpTo(note: vscode.Uri, top: vscode.Uri): readonly vscode.Uri[] {
  const folders: vscode.Uri[] = [];
  const highest = top.path.replace(/\/$/, '');
  let path = note.path;
  while (path.length > highest.length) {
    path = path.slice(0, path.lastIndexOf('/'));
    if (path.length < highest.length) break;
    folders.push(note.with({ path: path || '/', query: '', fragment: '' }));
  }
  return folders;
}

export function openText(uri: vscode.Uri): string | null {
  const same = (document: vscode.TextDocument): boolean => document.uri.toString() === uri.toString();
  return vscode.workspace.textDocuments.find((document) => same(document) && !document.isClosed)?.getText() ?? null;
}

/** Null where there is no such file, or none that can be read. */
async function savedText(uri: vscode.Uri): Promise<string | null> {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}
