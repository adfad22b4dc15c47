/** Finds and reads notes of the workspace for the server: in open editors before the disk, and never outside the workspace. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { USE_LIMITS } from '../note/use/refusal.ts';
import type { LeadsOut } from './links.ts';
import { openText } from './policy.ts';

export const NOTES = '**/*.{md,markdown}';
export const LEFT_OUT = '**/node_modules/**';

/** How many are listed and looked through at most while somebody types. */
const MOST_NOTES = 2000;

/** For every note of the workspace, so that a change on the disk reaches the notes that use it. */
export function watchNotes(): vscode.FileSystemWatcher {
  return vscode.workspace.createFileSystemWatcher(NOTES);
}

export function serveNotes(client: BaseLanguageClient, leadsOut: LeadsOut): vscode.Disposable {
  const used = client.onRequest(
    'meniscus/usedNote',
    async ({ from, path }: { readonly from: string; readonly path: string }) => {
      const found = await usedNote(client.protocol2CodeConverter.asUri(from), path, leadsOut);
      return 'why' in found ? found : { uri: client.code2ProtocolConverter.asUri(found.uri), text: found.text };
    },
  );
  const found = client.onRequest(
    'meniscus/notes',
    async ({ near }: { readonly near: string | null }, token: vscode.CancellationToken) => {
      const notes = await notesNear(near === null ? null : client.protocol2CodeConverter.asUri(near), token);
      return notes.map((uri) => client.code2ProtocolConverter.asUri(uri));
    },
  );
  return vscode.Disposable.from(used, found);
}

/** Of the folder of the workspace that `near` lies in, or of all folders; none until the workspace is trusted. */
async function notesNear(near: vscode.Uri | null, token: vscode.CancellationToken): Promise<readonly vscode.Uri[]> {
  const top = near && vscode.workspace.getWorkspaceFolder(near);
  if (!vscode.workspace.isTrusted || (near && !top)) return [];
  const notes = top ? new vscode.RelativePattern(top, NOTES) : NOTES;
  return vscode.workspace.findFiles(notes, LEFT_OUT, MOST_NOTES, token);
}

type Answer = { readonly uri: vscode.Uri; readonly text: string } | { readonly why: string };

/** The note that `path` names as it is written in the note or policy `from`; both lie in the same workspace folder. */
export async function usedNote(from: vscode.Uri, path: string, leadsOut: LeadsOut): Promise<Answer> {
  const top = vscode.workspace.getWorkspaceFolder(from)?.uri;
  if (!top) return { why: 'no-workspace' };
  if (!vscode.workspace.isTrusted) return { why: 'untrusted' };
  const uri = vscode.Uri.joinPath(from, '..', path).with({ query: '', fragment: '' });
  if (!uri.path.startsWith(`${top.path.replace(/\/$/, '')}/`)) return { why: 'above' };
  if (await leadsOut(uri, top)) return { why: 'link' };
  const text = openText(uri);
  return text === null ? savedNote(uri) : { uri, text };
}

async function savedNote(uri: vscode.Uri): Promise<Answer> {
  try {
    const { type, size } = await vscode.workspace.fs.stat(uri);
    if (!(type & vscode.FileType.File)) return { why: 'not-a-note' };
    if (size > USE_LIMITS.size) return { why: 'too-large' };
    const bytes = await vscode.workspace.fs.readFile(uri);
    return { uri, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch (error) {
    const missing = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
    return { why: missing ? 'none' : 'unreadable' };
  }
}
