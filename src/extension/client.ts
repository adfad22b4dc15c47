/** What both builds of the extension share: how the client speaks to its server, and what it shows besides. */
import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { InlayHintRequest } from 'vscode-languageclient';
import { POLICY_FILE } from '../service/policy-name.ts';
import { registerCommands } from './commands.ts';
import { showFindingCount } from './finding-count.ts';
import type { LeadsOut } from './links.ts';
import { servePolicies, watchPolicies } from './policy.ts';
import { registerUpdateNumbers } from './update-numbers.ts';
import { serveNotes, watchNotes } from './used-notes.ts';

const inlineResults = 'meniscus.results.inline';

/** Every Markdown document and policy, wherever it comes from: a disk, a virtual workspace, not saved yet. */
export function clientOptions(context: vscode.ExtensionContext): LanguageClientOptions {
  const watched = [watchPolicies(), watchNotes()];
  context.subscriptions.push(...watched);
  return {
    documentSelector: [{ language: 'markdown' }, { pattern: `**/${POLICY_FILE}` }],
    synchronize: { fileEvents: watched },
    initializationOptions: {
      docsBase: vscode.Uri.joinPath(context.extensionUri, 'docs', 'checks').toString(),
      policy: true,
      usedNotes: true,
      notes: true,
      pictures: true,
      // Findings of notes and policies that are not open are shown as well; nothing asks for those.
      push: true,
    },
    markdown: { isTrusted: false, supportHtml: false },
    middleware: {
      provideInlayHints: (document, viewPort, token, next) =>
        vscode.workspace.getConfiguration(undefined, document).get<boolean>(inlineResults, true)
          ? next(document, viewPort, token)
          : [],
    },
  };
}

/** Starts the client; the extension's subscriptions stop it again. */
export async function start(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
  leadsOut: LeadsOut,
): Promise<void> {
  context.subscriptions.push(
    client,
    servePolicies(client, leadsOut),
    serveNotes(client, leadsOut),
    showFindingCount(),
    registerCommands(client),
    registerUpdateNumbers(client),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration(inlineResults)) refreshInlineResults(client);
    }),
  );
  await client.start();
}

function refreshInlineResults(client: BaseLanguageClient): void {
  const hints = client.getFeature(InlayHintRequest.method);
  for (const document of vscode.workspace.textDocuments) hints.getProvider(document)?.onDidChangeInlayHints.fire();
}
