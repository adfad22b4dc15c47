/** What the server reads for a client that does not: the folders it names, and what reads in them. */
import {
  type Connection,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type ServerCapabilities,
} from 'vscode-languageserver';
import { type NoteSource, POLICY_FILE } from '../service/index.ts';
import type { FoundPolicy, PolicySource } from './policies.ts';

export interface Workspace {
  /** URIs of its folders. */
  folders(): readonly string[];
  /** What is written in the client's editors. */
  open(): readonly { readonly uri: string; getText(): string }[];
}

/** Reads in the folders of a workspace, and nowhere else. */
export interface WorkspaceFiles extends PolicySource, NoteSource {
  /** One spelling for each address, however a client spells it. */
  addressOf(uri: string): string;
}

/** The folders that a client has open, followed as they come and go. */
export class WorkspaceFolders {
  private uris: readonly string[] = [];

  get all(): readonly string[] {
    return this.uris;
  }

  /** Takes them from the client's hello; gives what is to be said of it. */
  read({ workspaceFolders, rootUri, capabilities }: InitializeParams): ServerCapabilities {
    const named = namesOf(workspaceFolders);
    this.uris = named.length > 0 || typeof rootUri !== 'string' ? named : [rootUri];
    return capabilities?.workspace?.workspaceFolders
      ? { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } }
      : {};
  }

  /** `then` is called when they have changed. */
  follow(connection: Connection, then: () => void): void {
    connection.onNotification('workspace/didChangeWorkspaceFolders', (params: unknown) => {
      const { added, removed } = ((params ?? {}) as { event?: { added?: unknown; removed?: unknown } }).event ?? {};
      const gone = new Set(namesOf(removed));
      this.uris = [...new Set([...this.uris.filter((uri) => !gone.has(uri)), ...namesOf(added)])];
      then();
    });
  }
}

function namesOf(folders: unknown): readonly string[] {
  if (!Array.isArray(folders)) return [];
  return folders.flatMap((folder) => (typeof folder?.uri === 'string' ? [folder.uri] : []));
}

/** Asks to be told when a note or a policy changes on the disk. */
export function watchFiles(connection: Connection): void {
  const watchers = ['**/*.{md,markdown}', `**/${POLICY_FILE}`].map((globPattern) => ({ globPattern }));
  void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
}

/** Where the server can read nothing by itself. */
export const NO_FILES: WorkspaceFiles = {
  find: async (): Promise<FoundPolicy | null> => null,
  read: async () => ({ why: 'no-workspace' }),
  addressOf: (uri) => uri,
};
