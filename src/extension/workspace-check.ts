/** Checks the notes of the workspace that are not open, and keeps their findings true while they change on the disk. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { LEFT_OUT, NOTES } from './used-notes.ts';

export class WorkspaceCheck implements vscode.Disposable {
  private readonly checked = new Set<string>();
  private following: vscode.Disposable | null = null;

  constructor(private readonly client: BaseLanguageClient) {}

  async run(): Promise<void> {
    const notes = await vscode.workspace.findFiles(NOTES, LEFT_OUT);
    this.following ??= this.follow();
    const options = { location: vscode.ProgressLocation.Notification, title: 'Checking notes', cancellable: true };
    const { read, findings } = await vscode.window.withProgress(options, async (progress, token) => {
      let [done, found] = [0, 0];
      for (const note of notes) {
        if (token.isCancellationRequested) break;
        found += await this.check(note);
        done += 1;
        const message = `${done} of ${notes.length}`;
        progress.report({ increment: 100 / notes.length, message });
      }
      return { read: done, findings: found };
    });
    void this.tell(read, notes.length, findings);
  }

  dispose(): void {
    this.following?.dispose();
  }

  /** How many findings the note has. An open note has its own already. */
  private async check(note: vscode.Uri): Promise<number> {
    const uri = this.client.code2ProtocolConverter.asUri(note);
    this.checked.add(note.toString());
    const found = await this.client.sendRequest<number | null>('meniscus/check', { uri, text: await textOf(note) });
    return found ?? vscode.languages.getDiagnostics(note).filter(({ source }) => source === 'Meniscus').length;
  }

  private follow(): vscode.Disposable {
    const watcher = vscode.workspace.createFileSystemWatcher(NOTES);
    const again = (note: vscode.Uri): void => {
      if (this.checked.has(note.toString())) void this.check(note);
    };
    return vscode.Disposable.from(
      watcher,
      watcher.onDidChange(again),
      watcher.onDidDelete(again),
      vscode.workspace.onDidCloseTextDocument(({ uri }) => again(uri)),
    );
  }

  private async tell(read: number, all: number, findings: number): Promise<void> {
    const of = read < all ? `${read} of ${all}` : `${all}`;
    const show = 'Show the Findings';
    const text = `Checked ${of} ${all === 1 ? 'note' : 'notes'}: ${findings} ${findings === 1 ? 'finding' : 'findings'}.`;
    const chosen = await vscode.window.showInformationMessage(text, ...(findings > 0 ? [show] : []));
    if (chosen === show) await vscode.commands.executeCommand('workbench.actions.view.problems');
  }
}

/** null where it cannot be read, or is gone. */
async function textOf(note: vscode.Uri): Promise<string | null> {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(note));
  } catch {
    return null;
  }
}
