/** Files to read only. */
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { ServerResponse } from 'node:http';
import { extname } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { within } from './paths.ts';

const types: Record<string, string> = {
  '.css': 'text/css',
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.md': 'text/markdown; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
};

/** Answers with the file at `path` in `folder`: 403 when it leaves the folder, 404 when there is none. */
export async function sendFile(response: ServerResponse, folder: string, path: string, cache: string): Promise<void> {
  const file = await within(folder, path);
  if (!file) return sendStatus(response, 403);
  const found = await stat(file).catch(() => null);
  if (!found?.isFile()) return sendStatus(response, 404);
  response.writeHead(200, { ...headersFor(file, cache), 'Content-Length': found.size });
  await pipeline(createReadStream(file), response).catch(() => response.destroy());
}

/** Answers with a text made on the fly, under the type that its name's ending has. */
export function sendText(response: ServerResponse, name: string, text: string): void {
  response.writeHead(200, headersFor(name, 'no-cache')).end(text);
}

export function sendStatus(response: ServerResponse, status: number): void {
  response.writeHead(status).end();
}

function headersFor(name: string, cache: string): Record<string, string> {
  const type = types[extname(name)] ?? 'application/octet-stream';
  return { 'Content-Type': type, 'Cache-Control': cache, 'X-Content-Type-Options': 'nosniff' };
}
