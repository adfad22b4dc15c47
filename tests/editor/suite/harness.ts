/** As much of a test runner as the extension host needs: named tests, and waiting for the editor to come round. */
import * as vscode from 'vscode';

export interface EditorTest {
  readonly name: string;
  run(): Promise<void>;
}

/** Ours, as VS Code knows it. */
export function extension(): vscode.Extension<unknown> {
  const found = vscode.extensions.getExtension('meniscus.meniscus');
  if (!found) throw new Error('the extension is not installed');
  return found;
}

/** How long anything may take to show, in milliseconds: the first thing waits for the extension to start. */
const patience = 60_000;

/** The first value of `look` that is neither undefined nor false; `wanted` says in words what never came. */
export async function eventually<T>(
  wanted: string,
  look: () => T | undefined | false | Promise<T | undefined | false>,
): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const seen = await look();
    if (seen !== undefined && seen !== false) return seen;
    if (Date.now() > end) throw new Error(`waited in vain for ${wanted}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

export function equal(actual: unknown, expected: unknown, what: string): void {
  const [left, right] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (left !== right) throw new Error(`${what}: ${left} instead of ${right}`);
}

let untitledNotes = 0;

/** An open note that was never saved. Each has a name of its own: VS Code would bring back an earlier one's text. */
export async function untitled(content: string): Promise<vscode.TextEditor> {
  untitledNotes += 1;
  const editor = await vscode.window.showTextDocument(vscode.Uri.parse(`untitled:/note-${untitledNotes}.md`));
  await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), content));
  return editor;
}

/** A note of the folder that is open. */
export async function saved(name: string): Promise<vscode.TextEditor> {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (!folder) throw new Error('no folder is open');
  return vscode.window.showTextDocument(vscode.Uri.joinPath(folder.uri, name));
}

/** Where `text` first stands in the note. */
export function rangeOf(document: vscode.TextDocument, text: string): vscode.Range {
  const start = document.getText().indexOf(text);
  if (start < 0) throw new Error(`the note has no "${text}"`);
  return new vscode.Range(document.positionAt(start), document.positionAt(start + text.length));
}

export function findings(document: vscode.TextDocument): readonly vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(document.uri).filter(({ source }) => source === 'Meniscus');
}
