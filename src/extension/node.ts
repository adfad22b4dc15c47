/** The extension on the desktop and on remote machines: the server is a process of its own. */
import { realpath } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, start } from './client.ts';
import { anyLink, type LeadsOut } from './links.ts';
import { type PreviewExtension, previewExtension } from './preview.ts';

export async function activate(context: ExtensionContext): Promise<PreviewExtension> {
  const server = { module: context.asAbsolutePath('dist/server/node.js'), transport: TransportKind.ipc };
  await start(context, new LanguageClient('meniscus', 'Meniscus', server, clientOptions(context)), leadsOut);
  return previewExtension(context, leadsOut);
}

/** On a disk it can be seen where links lead. */
export const leadsOut: LeadsOut = async (file, top) => {
  if (file.scheme !== 'file') return anyLink(file, top);
  const real = await realpath(file.fsPath).catch(() => null);
  if (real === null) return false;
  const way = relative(await realpath(top.fsPath), real);
  return way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way);
};
