/** A folder of notes over HTTP, to read and to write; the other end is `folder/extension.ts`. */
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { resolve } from 'node:path';
import { within } from './paths.ts';
import { sendStatus } from './static-files.ts';

/** VS Code's `FileType`. */
const fileType = { unknown: 0, file: 1, folder: 2 };

/**
 * - `GET path?stat`, `GET path?entries`: JSON; `GET path`: the file's bytes;
 * - `PUT path`: writes the body; `PUT path?folder`: makes a folder; `PUT path?from=OTHER`: renames OTHER;
 * - `DELETE path`: removes a file or a whole folder.
 *
 * 403 when a path leaves the folder or would replace it, 404 when there is nothing, 409 when it cannot be done, 413 when
 * more is sent than a note may have.
 */
export async function answerFolder(
  request: IncomingMessage,
  response: ServerResponse,
  folder: string,
  path: string,
  query: URLSearchParams,
): Promise<void> {
  const from = query.get('from');
  const file = await within(folder, path);
  const source = from === null ? null : await within(folder, from);
  const leaves = !file || (from !== null && !source);
  const changesAll = request.method !== 'GET' && [file, source].includes(resolve(folder));
  if (leaves || changesAll) return sendStatus(response, 403);
  try {
    if (request.method === 'GET') return send(response, await read(file, query));
    if (request.method === 'PUT') {
      if (source) await rename(source, file);
      else if (query.has('folder')) await mkdir(file);
      else {
        const body = await bodyOf(request);
        if (!body) return refuseBody(request, response);
        await writeFile(file, body);
      }
      return sendStatus(response, 204);
    }
    if (request.method === 'DELETE') {
      await rm(file, { recursive: true });
      return sendStatus(response, 204);
    }
    sendStatus(response, 405);
  } catch (error) {
    sendStatus(response, (error as NodeJS.ErrnoException).code === 'ENOENT' ? 404 : 409);
  }
}

/** As much as the command line reads of a file. */
const LARGEST_BYTES = 64 * 1024 * 1024;

/** Null when it is too large: no more of it is kept. */
async function bodyOf(request: IncomingMessage): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request.iterator({ destroyOnReturn: false })) {
    size += (chunk as Buffer).length;
    if (size > LARGEST_BYTES) return null;
    chunks.push(chunk as Buffer);
  }
  return Buffer.concat(chunks);
}

/** Ends the connection a little after the answer: closed at once, it would take the answer with it. */
function refuseBody(request: IncomingMessage, response: ServerResponse): void {
  sendStatus(response, 413);
  setTimeout(() => request.socket.destroy(), 500).unref();
}

async function read(file: string, query: URLSearchParams): Promise<Buffer | object> {
  if (query.has('stat')) {
    const found = await stat(file);
    const type = found.isDirectory() ? fileType.folder : fileType.file;
    return { type, ctime: Math.round(found.birthtimeMs), mtime: Math.round(found.mtimeMs), size: found.size };
  }
  if (!query.has('entries')) return readFile(file);
  const entries = await readdir(file, { withFileTypes: true });
  return entries.map((entry) => [
    entry.name,
    entry.isDirectory() ? fileType.folder : entry.isFile() ? fileType.file : fileType.unknown,
  ]);
}

function send(response: ServerResponse, body: Buffer | object): void {
  const bytes = Buffer.isBuffer(body) ? body : JSON.stringify(body);
  const type = Buffer.isBuffer(body) ? 'application/octet-stream' : 'application/json';
  const headers = { 'Content-Type': type, 'Cache-Control': 'no-store', 'X-Content-Type-Options': 'nosniff' };
  response.writeHead(200, headers).end(bytes);
}
