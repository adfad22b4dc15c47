/** Finds the policy of a note for the server: in open editors before the disk, and never outside the workspace. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { USE_LIMITS } from '../note/use/refusal.ts';
import { POLICY_FILE } from '../service/policy-name.ts';
import type { LeadsOut } from './links.ts';

/** Said where it matters: in the log, and on the count of findings. */
export const UNTRUSTED = 'Local policy and other notes are not read until this workspace is trusted.';

/** For every policy of the workspace, so that a change on the disk reaches the server. */
export function watchPolicies(): vscode.FileSystemWatcher {
  return vscode.workspace.createFileSystemWatcher(`**/${POLICY_FILE}`);
}

/** Answers the server, and tells it when the answer may have become another. */
export function servePolicies(client: BaseLanguageClient, leadsOut: LeadsOut): vscode.Disposable {
  const askAgain = (): void => void client.sendNotification('meniscus/policyChanged');
  if (!vscode.workspace.isTrusted) client.info(UNTRUSTED, undefined, false);
  const said = new Set<string>();
  const refused = (uri: vscode.Uri): void => {
    if (said.has(uri.toString())) return;
    said.add(uri.toString());
    client.warn(`${uri.path} is a link that leads out of the workspace, and is not read.`, undefined, false);
  };
  return vscode.Disposable.from(
    client.onRequest('meniscus/policy', async ({ uri }: { readonly uri: string }) => {
      const found = await policyOf(client.protocol2CodeConverter.asUri(uri), leadsOut, refused);
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

/** The nearest in the note's folder or above it, up to its workspace folder; one that is `refused` is none. */
export async function policyOf(
  note: vscode.Uri,
  leadsOut: LeadsOut,
  refused: (uri: vscode.Uri) => void = () => {},
): Promise<Found | null> {
  const top = vscode.workspace.getWorkspaceFolder(note)?.uri;
  if (!top || !vscode.workspace.isTrusted) return null;
  for (const folder of foldersUpTo(note, top)) {
    const uri = vscode.Uri.joinPath(folder, POLICY_FILE);
    const text = openText(uri) ?? (await savedText(uri));
    if (text === null) continue;
    if (!(await leadsOut(uri, top))) return { uri, text };
    refused(uri);
    return null;
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
    const { type, size } = await vscode.workspace.fs.stat(uri);
    if (!(type & vscode.FileType.File) || size > USE_LIMITS.size) return null;
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}
