/** The extension on the desktop and on remote machines: the server is a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, start } from './client.ts';

export async function activate(context: ExtensionContext): Promise<void> {
  const server = { module: context.asAbsolutePath('dist/server/node.js'), transport: TransportKind.ipc };
  await start(context, new LanguageClient('meniscus', 'Meniscus', server, clientOptions(context)));
}
