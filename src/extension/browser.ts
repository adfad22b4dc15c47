/** The extension in a browser: the server is a web worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { clientOptions, start } from './client.ts';
import { anyLink } from './links.ts';
import { type PreviewExtension, previewExtension } from './preview.ts';

declare const Worker: new (url: string) => Extract<ConstructorParameters<typeof LanguageClient>[2], object>;

export async function activate(context: vscode.ExtensionContext): Promise<PreviewExtension> {
  const server = new Worker(vscode.Uri.joinPath(context.extensionUri, 'dist/server/browser.js').toString(true));
  await start(context, new LanguageClient('meniscus', 'Meniscus', server, clientOptions(context)), anyLink);
  return previewExtension(context, anyLink);
}
