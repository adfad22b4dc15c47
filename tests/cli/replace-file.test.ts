/** Files that are written whole or not at all. No source: our own design. */
import { spawn } from 'node:child_process';
import { link, lstat, mkdtemp, readdir, readFile, rm, stat, symlink, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { root } from '../../scripts/root.ts';
import { isSameFile, notWritten, replaceFile, writeWhole } from '../../src/cli/replace-file.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-write-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const OLD = 'old\n'.repeat(200_000);
const NEW = 'new\n'.repeat(300_000);

/** Writes the file again and again, old and new in turn, until it is killed. */
function startWriting(path: string) {
  const module = pathToFileURL(`${root}src/cli/replace-file.ts`).href;
  const script = `
    const { replaceFile } = await import(${JSON.stringify(module)});
    const texts = [${JSON.stringify('new\n')}.repeat(300_000), ${JSON.stringify('old\n')}.repeat(200_000)];
    process.stdout.write('ready');
    for (let turn = 0; ; turn += 1) await replaceFile(${JSON.stringify(path)}, texts[turn % 2]);`;
  return spawn(
    process.execPath,
    ['--import', pathToFileURL(`${root}scripts/typescript.mjs`).href, '--input-type=module', '--eval', script],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
}

describe('a file that somebody edits meanwhile', () => {
  it('keeps the edit, and says so', async () => {
    const path = join(folder, 'note.md');
    await writeFile(path, 'edited');
    const error = await replaceFile(path, 'formatted', 'as it was read').catch((reason) => reason);
    expect(notWritten('note.md', error)).toBe('note.md: was changed while it was read; not written, run it again');
    expect(await readFile(path, 'utf8')).toBe('edited');
    expect(await readdir(folder)).toEqual(['note.md']);
  });

  it('is written when it holds what was read, its byte order mark included', async () => {
    const path = join(folder, 'note.md');
    await writeFile(path, '\uFEFFas it was read');
    await replaceFile(path, 'formatted', '\uFEFFas it was read');
    expect(await readFile(path, 'utf8')).toBe('formatted');
  });
});

describe('a process that is killed while it writes', () => {
  it('leaves the old text or the new one, and what it left beside is taken away later', async () => {
    const path = join(folder, 'note.md');
    await writeFile(path, OLD, { mode: 0o640 });
    const found = new Set<string>();
    for (let round = 0; round < 12; round += 1) {
      const child = startWriting(path);
      const ended = new Promise((resolve) => child.once('close', resolve));
      await new Promise((resolve) => child.stdout.once('data', resolve));
      await new Promise((resolve) => setTimeout(resolve, Math.random() * 40));
      child.kill('SIGKILL');
      await ended;
      const text = await readFile(path, 'utf8');
      found.add(text === OLD ? 'old' : text === NEW ? 'new' : `${text.length} characters of neither`);
      expect((await stat(path)).mode & 0o777).toBe(0o640);
    }
    expect([...found].filter((what) => what.endsWith('neither'))).toEqual([]);

    const left = (await readdir(folder)).filter((name) => name !== 'note.md');
    for (const name of left) expect(name).toMatch(/^\.note\.md\.\d+\.meniscus-tmp$/);
    const before = new Date(Date.now() - 120_000);
    await Promise.all(left.map((name) => utimes(join(folder, name), before, before)));
    await writeWhole(path, 'later');
    expect(await readdir(folder)).toEqual(['note.md']);
    expect(await readFile(path, 'utf8')).toBe('later');
  });

  it('is not taken for one that is at it still, nor is anything else that lies there', async () => {
    const others = [`.note.md.${process.ppid}.meniscus-tmp`, '.note.md.tmp', '.meniscus-tmp', 'x.1.meniscus-tmp'];
    for (const name of others) await writeFile(join(folder, name), '');
    const before = new Date(Date.now() - 120_000);
    for (const name of others) await utimes(join(folder, name), before, before);
    await writeFile(join(folder, '.young.md.999999999.meniscus-tmp'), '');
    await writeWhole(join(folder, 'note.md'), 'text');
    expect((await readdir(folder)).sort()).toEqual(['.young.md.999999999.meniscus-tmp', 'note.md', ...others].sort());
  });
});

describe('a file that is written', () => {
  it('need not be there, and may be reached by a link, which stays one', async () => {
    await writeWhole(join(folder, 'a.md'), 'one');
    await symlink('a.md', join(folder, 'b.md'));
    await writeWhole(join(folder, 'b.md'), 'two');
    expect(await readFile(join(folder, 'a.md'), 'utf8')).toBe('two');
    expect((await lstat(join(folder, 'b.md'))).isSymbolicLink()).toBe(true);
  });

  it('is not made where a link leads nowhere, or a folder stands', async () => {
    await symlink('none.md', join(folder, 'a.md'));
    await expect(writeWhole(join(folder, 'a.md'), 'x')).rejects.toThrow('ENOENT');
    await expect(writeWhole(folder, 'x')).rejects.toThrow('EISDIR');
    expect(await readdir(folder)).toEqual(['a.md']);
  });

  it('is known for another one by links of either kind', async () => {
    await writeFile(join(folder, 'a.md'), '');
    await symlink('a.md', join(folder, 'soft.md'));
    await link(join(folder, 'a.md'), join(folder, 'hard.md'));
    await writeFile(join(folder, 'other.md'), '');
    const same = (name: string) => isSameFile(join(folder, name), join(folder, 'a.md'));
    expect(await Promise.all(['./a.md', 'soft.md', 'hard.md', 'other.md', 'none.md'].map(same))).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
  });
});
