/** Brings the folder that `npm start` serves into the VS Code of the browser. The other end is `../note-folder.ts`. */
import * as vscode from 'vscode';

/** VS Code trusts every virtual folder but those of the second scheme. */
const schemes = ['notes', 'vscode-vfs'];

/** The extension host's own place: it is served by the same host as the notes. */
declare const location: { readonly origin: string };

export function activate(context: vscode.ExtensionContext): void {
  const folder = new ServedFolder();
  for (const scheme of schemes) {
    context.subscriptions.push(
      vscode.workspace.registerFileSystemProvider(scheme, folder, { isCaseSensitive: true }),
      (vscode.workspace as unknown as FileSearch).registerFileSearchProvider(scheme, {
        provideFileSearchResults: (_query, options) => folder.filesBelow(options.folder),
      }),
    );
  }
}

/** A proposed part of the API, without which `findFiles` and Go to File never answer. */
interface FileSearch {
  registerFileSearchProvider(
    scheme: string,
    provider: {
      provideFileSearchResults(query: object, options: { readonly folder: vscode.Uri }): Promise<vscode.Uri[]>;
    },
  ): vscode.Disposable;
}

class ServedFolder implements vscode.FileSystemProvider {
  private readonly changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.changed.event;

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => {});
  }

  async stat(uri: vscode.Uri): Promise<vscode.FileStat> {
    return (await this.ask('GET', uri, '?stat')).json() as Promise<vscode.FileStat>;
  }

  async readDirectory(uri: vscode.Uri): Promise<[string, vscode.FileType][]> {
    return (await this.ask('GET', uri, '?entries')).json() as Promise<[string, vscode.FileType][]>;
  }

  async readFile(uri: vscode.Uri): Promise<Uint8Array> {
    return new Uint8Array(await (await this.ask('GET', uri)).arrayBuffer());
  }

  async createDirectory(uri: vscode.Uri): Promise<void> {
    await this.ask('PUT', uri, '?folder');
    this.tell(vscode.FileChangeType.Created, uri);
  }

  async writeFile(uri: vscode.Uri, content: Uint8Array): Promise<void> {
    await this.ask('PUT', uri, '', content);
    this.tell(vscode.FileChangeType.Changed, uri);
  }

  async delete(uri: vscode.Uri): Promise<void> {
    await this.ask('DELETE', uri);
    this.tell(vscode.FileChangeType.Deleted, uri);
  }

  async rename(from: vscode.Uri, to: vscode.Uri): Promise<void> {
    await this.ask('PUT', to, `?from=${encodeURIComponent(from.path.replace(/^\/[^/]*/, ''))}`);
    this.tell(vscode.FileChangeType.Deleted, from);
    this.tell(vscode.FileChangeType.Created, to);
  }

  async filesBelow(folder: vscode.Uri): Promise<vscode.Uri[]> {
    const entries = await this.readDirectory(folder);
    const found = entries.map(async ([name, type]) => {
      const uri = vscode.Uri.joinPath(folder, name);
      return type === vscode.FileType.Directory ? this.filesBelow(uri) : [uri];
    });
    return (await Promise.all(found)).flat();
  }

  private tell(type: vscode.FileChangeType, uri: vscode.Uri): void {
    this.changed.fire([{ type, uri }]);
  }

  private async ask(method: string, uri: vscode.Uri, query = '', body: Uint8Array | null = null): Promise<Response> {
    const path = uri.path.split('/').map(encodeURIComponent).join('/');
    const response = await fetch(`${location.origin}/notes${path}${query}`, { method, body });
    if (response.ok) return response;
    if (response.status === 404) throw vscode.FileSystemError.FileNotFound(uri);
    throw vscode.FileSystemError.NoPermissions(uri);
  }
}
