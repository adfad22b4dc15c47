/** The extension on the desktop and on remote machines: the server is a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, start } from './client.ts';
import { type PreviewExtension, previewExtension } from './preview.ts';

export async function activate(context: ExtensionContext): Promise<PreviewExtension> {
  const server = { module: context.asAbsolutePath('dist/server/node.js'), transport: TransportKind.ipc };
  await start(context, new LanguageClient('meniscus', 'Meniscus', server, clientOptions(context)));
  return previewExtension(context);
}
