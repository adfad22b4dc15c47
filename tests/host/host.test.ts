/** What `npm start` serves, and what it refuses. No source: our own design. */
import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { createServer, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Host, startHost } from '../../scripts/editor/host.ts';

let home: string;
let folder: string;
let host: Host;

beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'meniscus-host-'));
  folder = join(home, 'ward');
  await mkdir(join(folder, 'inner'), { recursive: true });
  await writeFile(join(home, 'secret.md'), 'not for you');
  await mkdir(join(home, 'ward-2'));
  await writeFile(join(home, 'ward-2', 'note.md'), 'not for you');
  await writeFile(join(folder, 'note.md'), '# 50 % 😀');
  await symlink(join(home, 'secret.md'), join(folder, 'link.md'));
  await symlink(home, join(folder, 'up'));
  await symlink(join(home, 'absent.md'), join(folder, 'dangling.md'));
  host = await startHost({ folder, note: 'note.md', port: 0 });
});

afterAll(async () => {
  await host.close();
  await rm(home, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly body: string;
}

/** The path is sent as it is written: `fetch` would tidy it first. */
function ask(path: string, method = 'GET', headers: Record<string, string> = {}, body = ''): Promise<Answer> {
  const { hostname, port } = new URL(host.address);
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, method, headers }, async (response) => {
      let text = '';
      for await (const chunk of response) text += chunk;
      resolve({ status: response.statusCode ?? 0, body: text });
    });
    asked.once('error', reject);
    asked.end(body);
  });
}

describe('the page', () => {
  test('opens the note beside its preview', async () => {
    const { status, body } = await ask('/');
    expect(status).toBe(200);
    expect(body).toContain('"path":"/ward/note.md"},"viewColumn":1');
    expect(body).toContain('vscode.markdown.preview.editor');
  });

  test('has VS Code, our extension and the webview page that lets its own origin in', async () => {
    expect((await ask('/code/out/vs/loader.js')).status).toBe(200);
    expect((await ask('/meniscus/package.json')).body).toContain('"name": "meniscus"');
    const webview = await ask('/code/out/vs/workbench/contrib/webview/browser/pre/index.html');
    expect(webview.body).toContain('parentOrigin === location.origin');
  });

  test('is served on the loopback address only', () => {
    expect(new URL(host.address).hostname).toBe('127.0.0.1');
  });
});

describe('a request is refused', () => {
  test.each(['evil.example', 'evil.example:80', '127.0.0.1', 'localhost:1'])('to the host %s', async (name) => {
    expect((await ask('/', 'GET', { Host: name })).status).toBe(403);
  });

  test('from another site', async () => {
    const headers = { Origin: 'http://evil.example' };
    expect((await ask('/notes/ward/note.md', 'PUT', headers, 'gone')).status).toBe(403);
    expect(await readFile(join(folder, 'note.md'), 'utf8')).toBe('# 50 % 😀');
  });

  test.each([
    '/notes/ward/../secret.md',
    '/notes/ward/..%2fsecret.md',
    '/notes/ward/%2e%2e/secret.md',
    '/notes/ward/%2e%2e%2fsecret.md',
    '/notes/ward/inner/..%2f..%2fsecret.md',
    '/notes/ward/..%5csecret.md',
    '/notes/ward%2f..%2fsecret.md',
    '/notes/ward/link.md',
    '/notes/ward/up/secret.md',
    '/notes/ward-2/note.md',
    '/notes/ward/%00',
    '/notes/ward/%ff',
    '//etc/passwd',
    '/code/../package.json',
    '/code/..%2fpackage.json',
    '/meniscus/src/server/node.ts',
    '/meniscus/node_modules/esbuild/package.json',
    '/meniscus/dist/..%2f.npmrc',
  ])('for %s', async (path) => {
    const { status, body } = await ask(path);
    expect([400, 403, 404]).toContain(status);
    expect(body).toBe('');
  });

  test.each([
    ['PUT', '/notes/ward/..%2fnew.md'],
    ['PUT', '/notes/ward/dangling.md'],
    ['PUT', '/notes/ward/up/new.md'],
    ['PUT', '/notes/ward/new.md?from=..%2fsecret.md'],
    ['DELETE', '/notes/ward/..%2fsecret.md'],
    ['DELETE', '/notes/ward/up/secret.md'],
    ['DELETE', '/notes/ward'],
    ['DELETE', '/notes/ward/'],
    ['DELETE', '/notes/ward/.'],
    ['PUT', '/notes/ward/inner/moved?from=%2F.'],
    ['POST', '/notes/ward/note.md'],
    ['PUT', '/meniscus/package.json'],
  ])('to %s %s', async (method, path) => {
    const { status } = await ask(path, method, {}, method === 'DELETE' ? '' : 'changed');
    expect([403, 405]).toContain(status);
    expect(await readFile(join(home, 'secret.md'), 'utf8')).toBe('not for you');
    await expect(readFile(join(home, 'absent.md'))).rejects.toThrow();
  });
});

describe('the folder of notes', () => {
  test('is read', async () => {
    expect((await ask('/notes/ward/note.md')).body).toBe('# 50 % 😀');
    expect(JSON.parse((await ask('/notes/ward/note.md?stat')).body)).toMatchObject({ type: 1, size: 11 });
    expect(JSON.parse((await ask('/notes/ward?stat')).body)).toMatchObject({ type: 2 });
    expect(JSON.parse((await ask('/notes/ward?entries')).body)).toEqual(
      expect.arrayContaining([
        ['inner', 2],
        ['note.md', 1],
      ]),
    );
    expect((await ask('/notes/ward/absent.md?stat')).status).toBe(404);
  });

  test('is written', async () => {
    expect((await ask('/notes/ward/new?folder', 'PUT')).status).toBe(204);
    expect((await ask('/notes/ward/new/50%25.md', 'PUT', {}, 'half')).status).toBe(204);
    expect((await ask('/notes/ward/new/b.md?from=%2Fnew%2F50%25.md', 'PUT')).status).toBe(204);
    expect(await readFile(join(folder, 'new', 'b.md'), 'utf8')).toBe('half');
    expect((await ask('/notes/ward/new', 'DELETE')).status).toBe(204);
    expect((await ask('/notes/ward/new/b.md')).status).toBe(404);
  });

  test('takes no more than a note may have, and keeps the old text', async () => {
    await writeFile(join(folder, 'kept.md'), 'kept');
    expect(await statusOfEndless('/notes/ward/kept.md')).toBe(413);
    expect(await readFile(join(folder, 'kept.md'), 'utf8')).toBe('kept');
  });
});

/** What a body is answered that never ends by itself. */
function statusOfEndless(path: string): Promise<number> {
  const { hostname, port } = new URL(host.address);
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, method: 'PUT' });
    let answered = false;
    asked.on('response', (response) => {
      answered = true;
      resolve(response.statusCode ?? 0);
      asked.destroy();
    });
    asked.on('error', (error) => {
      if (!answered) reject(error);
    });
    const more = () => {
      while (!answered && asked.write(MEGABYTE));
      if (!answered) asked.once('drain', more);
    };
    more();
  });
}

const MEGABYTE = Buffer.alloc(1024 * 1024, 'a');

test('a busy port moves on to the next', async () => {
  const busy = createServer();
  await new Promise<void>((resolve) => busy.listen(0, '127.0.0.1', resolve));
  const { port } = busy.address() as AddressInfo;
  const second = await startHost({ folder, port });
  expect(Number(new URL(second.address).port)).toBeGreaterThan(port);
  await second.close();
  busy.close();
});
