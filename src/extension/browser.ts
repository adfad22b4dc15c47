/** The extension in a browser: the server is a web worker. */
import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { clientOptions, start } from './client.ts';
import { anyLink } from './links.ts';
import { type PreviewExtension, previewExtension } from './preview.ts';

type Port = ConstructorParameters<typeof BrowserMessageReader>[0];

declare const Worker: new (url: string) => Port & { terminate(): void };

export async function activate(context: vscode.ExtensionContext): Promise<PreviewExtension> {
  const server = vscode.Uri.joinPath(context.extensionUri, 'dist/server/browser.js').toString(true);
  let worker: InstanceType<typeof Worker> | undefined;
  /** A new worker each time it is started; the one before is ended, whatever state it is in. */
  const transports = async () => {
    worker?.terminate();
    worker = new Worker(server);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  await start(context, new LanguageClient('meniscus', 'Meniscus', transports, clientOptions(context)), anyLink);
  return previewExtension(context, anyLink);
}
