/** Answers `meniscus/worksheet`: the worksheet of the mixture at a place of an open note, as Markdown. */
import { type Connection, Position } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { worksheetMarkdown } from '../render/index.ts';
import type { WorkedNote } from '../service/types.ts';
import type { NotePolicy } from './policies.ts';

/** `path` is how the client shows the note; null for one that was never saved. */
interface WorksheetParams {
  readonly uri: string;
  readonly path: string | null;
  readonly position: Position;
}

/** The sheet, or in words why there is none. */
type WorksheetAnswer = { readonly markdown: string } | { readonly reason: string };

export interface WorksheetParts {
  readonly connection: Connection;
  openNoteAt(uri: string): Promise<{ readonly document: TextDocument; readonly note: WorkedNote } | null>;
  policyOf(uri: string): Promise<NotePolicy>;
}

export function registerWorksheet({ connection, openNoteAt, policyOf }: WorksheetParts): void {
  connection.onRequest('meniscus/worksheet', async (params: unknown): Promise<WorksheetAnswer | null> => {
    const { uri, path, position } = (params ?? {}) as Partial<WorksheetParams>;
    const found = typeof uri === 'string' && Position.is(position) ? await openNoteAt(uri) : null;
    if (!found || uri === undefined || !position) return null;
    const shown = typeof path === 'string' ? path : null;
    const policy = shownBeside(uri, shown, (await policyOf(uri)).uri);
    const offset = found.document.offsetAt(position);
    const worksheet = found.note.worksheet({ offset }, { path: shown, policy, bags: null, to: null });
    return worksheet.ok ? { markdown: worksheetMarkdown(worksheet.sheet) } : { reason: worksheet.reason };
  });
}

/** The policy's path from the folder that the note's path starts from, where both lie in it. */
function shownBeside(note: string, path: string | null, policy: string | null): string | null {
  if (policy === null) return null;
  const [noteAt, policyAt] = [decoded(note), decoded(policy)];
  const folder = path !== null && noteAt.endsWith(path) ? noteAt.slice(0, noteAt.length - path.length) : null;
  return folder !== null && policyAt.startsWith(folder) ? policyAt.slice(folder.length) : policyAt;
}

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
