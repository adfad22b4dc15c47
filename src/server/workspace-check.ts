/** Answers `meniscus/check`: a note that is not open is worked out, and its findings are published. */
import type { Connection } from 'vscode-languageserver';
import type { Diagnostic } from '../service/types.ts';

export interface WorkspaceCheckParts {
  readonly connection: Connection;
  isOpen(uri: string): boolean;
  /** What is found in the text of a note that is not open, under the policy that it has. */
  find(uri: string, text: string): Promise<readonly Diagnostic[]>;
  publish(uri: string, text: string, found: readonly Diagnostic[]): void;
}

/**
 * `{ uri, text }` → how many findings were published. `text: null` takes those of a note that is gone back. An open note keeps
 * its own findings, and is answered with null, as a malformed message is.
 */
export function registerWorkspaceCheck({ connection, isOpen, find, publish }: WorkspaceCheckParts): void {
  connection.onRequest('meniscus/check', async (params: unknown): Promise<number | null> => {
    const { uri, text } = (params ?? {}) as { readonly uri?: unknown; readonly text?: unknown };
    if (typeof uri !== 'string' || isOpen(uri) || (typeof text !== 'string' && text !== null)) return null;
    const found = text === null ? [] : await find(uri, text);
    if (isOpen(uri)) return null;
    publish(uri, text ?? '', found);
    return found.length;
  });
}
