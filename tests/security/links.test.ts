/** What the extension's builds read for a note lies in its workspace, whatever links say. VS Code is stood in for by a disk. */
import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

const editor = vi.hoisted(() => ({ top: '' }));

vi.mock('vscode', async () => {
  const fs = await import('node:fs/promises');
  const path = await import('node:path');
  class Uri {
    constructor(
      readonly scheme: string,
      readonly path: string,
    ) {}
    get fsPath(): string {
      return this.path;
    }
    with(change: { path?: string }): Uri {
      return new Uri(this.scheme, change.path ?? this.path);
    }
    toString(): string {
      return `${this.scheme}://${this.path}`;
    }
    static joinPath(uri: Uri, ...parts: string[]): Uri {
      return new Uri(uri.scheme, path.posix.join(uri.path, ...parts));
    }
  }
  const FileType = { Unknown: 0, File: 1, Directory: 2, SymbolicLink: 64 };
  const workspace = {
    isTrusted: true,
    textDocuments: [],
    getWorkspaceFolder: () => ({ uri: new Uri('file', editor.top) }),
    fs: {
      // As VS Code tells it: what a link leads to, and that it is one.
      stat: async (uri: Uri) => {
        const [found, itself] = [await fs.stat(uri.path), await fs.lstat(uri.path)];
        const kind = found.isFile() ? FileType.File : found.isDirectory() ? FileType.Directory : FileType.Unknown;
        return { type: kind | (itself.isSymbolicLink() ? FileType.SymbolicLink : 0), size: found.size };
      },
      readFile: (uri: Uri) => fs.readFile(uri.path),
    },
  };
  class FileSystemError extends Error {
    code = 'FileNotFound';
  }
  return { Uri, FileType, workspace, FileSystemError };
});
vi.mock('vscode-languageclient/node', () => ({ LanguageClient: class {}, TransportKind: {} }));
vi.mock('../../src/extension/client.ts', () => ({ clientOptions: () => ({}), start: async () => {} }));
vi.mock('../../src/extension/preview.ts', () => ({ previewExtension: () => ({}) }));

import * as vscode from 'vscode';
import { anyLink } from '../../src/extension/links.ts';
import { leadsOut } from '../../src/extension/node.ts';
import { policyOf } from '../../src/extension/policy.ts';
import { usedNote } from '../../src/extension/used-notes.ts';

let home = '';

beforeAll(async () => {
  home = await realpath(await mkdtemp(join(tmpdir(), 'meniscus-links-')));
  editor.top = join(home, 'ws');
  await mkdir(join(home, 'ws/inner'), { recursive: true });
  await mkdir(join(home, 'ws-2'));
  for (const path of ['secret.md', 'ws-2/secret.md', 'ws/a.md', 'ws/inner/b.md', 'infusion-policy.json'])
    await writeFile(join(home, path), path);
  await symlink('../secret.md', join(home, 'ws/out.md'));
  await symlink('..', join(home, 'ws/up'));
  await symlink('../ws-2', join(home, 'ws/beside'));
  await symlink('a.md', join(home, 'ws/in.md'));
  await symlink('inner', join(home, 'ws/also-inner'));
  await symlink('../../infusion-policy.json', join(home, 'ws/inner/infusion-policy.json'));
});

afterAll(() => rm(home, { recursive: true, force: true }));

const uri = (path: string) => vscode.Uri.joinPath({ scheme: 'file', path: home } as vscode.Uri, path);
const answer = async (path: string, links = leadsOut) => {
  const found = await usedNote(uri('ws/note.md'), path, links);
  return 'why' in found ? found.why : found.text;
};

describe('a note that is used', () => {
  it.each([
    ['./a.md', 'ws/a.md'],
    ['./inner/b.md', 'ws/inner/b.md'],
    ['./in.md', 'ws/a.md'],
    ['./also-inner/b.md', 'ws/inner/b.md'],
    ['./out.md', 'link'],
    ['./up/secret.md', 'link'],
    ['./beside/secret.md', 'link'],
    ['./up/ws/a.md', 'ws/a.md'],
    ['../secret.md', 'above'],
    ['../ws-2/secret.md', 'above'],
    ['inner/../../secret.md', 'above'],
    ['./%2e%2e/secret.md', 'unreadable'],
    ['./inner', 'not-a-note'],
  ])('on a disk: %s', async (path, expected) => {
    expect(await answer(path)).toBe(expected);
  });

  it('where nobody can tell where links lead, is read through none', async () => {
    for (const path of ['./out.md', './in.md', './up/secret.md', './also-inner/b.md'])
      expect(await answer(path, anyLink)).toBe('link');
    expect(await answer('./inner/b.md', anyLink)).toBe('ws/inner/b.md');
  });
});

it('a policy is not read through a link out of the workspace, which is said', async () => {
  const refused: string[] = [];
  expect(await policyOf(uri('ws/inner/b.md'), leadsOut, ({ path }) => refused.push(path))).toBeNull();
  expect(refused).toEqual([join(home, 'ws/inner/infusion-policy.json')]);
  expect(await policyOf(uri('ws/a.md'), leadsOut)).toBeNull();
  await writeFile(join(home, 'ws/infusion-policy.json'), '{}');
  expect((await policyOf(uri('ws/a.md'), leadsOut))?.text).toBe('{}');
});
