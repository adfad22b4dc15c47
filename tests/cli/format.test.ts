import { chmod, lstat, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { format } from '../../src/cli/format.ts';
import { fenced } from '../annotated.ts';

const tidy = fenced('mixture bag\n  1 L water');
const untidy = fenced('Mixture bag\n1 litre water\n\n');

let folder = '';

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
  await writeFile(join(folder, 'tidy.md'), tidy);
  await writeFile(join(folder, 'untidy.md'), `# Note\n\n${untidy}`);
});

afterEach(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(['format', ...argv.map((text) => text.replace('@', folder))]);
  if (given.command !== 'format') return { code: 2, out: '', err: JSON.stringify(given) };
  let out = '';
  let err = '';
  const code = await format(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out: out.replaceAll(`${folder}/`, '@/'), err: err.replaceAll(`${folder}/`, '@/') };
}

const read = (name: string) => readFile(join(folder, name), 'utf8');

describe('meniscus format', () => {
  it('writes the notes that change, and says which', async () => {
    const before = await stat(join(folder, 'tidy.md'));
    expect(await run('@')).toEqual({
      code: 0,
      out: '@/untidy.md: 4 lines formatted\n2 notes: 1 formatted\n',
      err: '',
    });
    expect(await read('untidy.md')).toBe(`# Note\n\n${tidy}`);
    const after = await stat(join(folder, 'tidy.md'));
    expect([after.ino, after.mtimeMs]).toEqual([before.ino, before.mtimeMs]);
    expect(await run('@')).toEqual({ code: 0, out: '2 notes: nothing to format\n', err: '' });
    expect(await readdir(folder)).toEqual(['tidy.md', 'untidy.md']);
  });

  it('with --check writes nothing, names what would change, and exits 1', async () => {
    expect(await run('@', '--check')).toEqual({
      code: 1,
      out: '@/untidy.md: 4 lines to format\n2 notes: 1 to format\n',
      err: '',
    });
    expect(await read('untidy.md')).toBe(`# Note\n\n${untidy}`);
    expect(await run('@/tidy.md', '--check')).toEqual({ code: 0, out: '1 note: nothing to format\n', err: '' });
  });

  it('touches nothing outside the blocks: byte order mark, line ends, white space', async () => {
    const around = (block: string) =>
      `\uFEFF# Note  \r\n\r\n* a\t\r\n\r\n${block.replaceAll('\n', '\r\n')}\r\n\r\n\r\nend`;
    await writeFile(join(folder, 'untidy.md'), around(untidy));
    expect((await run('@/untidy.md')).code).toBe(0);
    expect(await read('untidy.md')).toBe(around(tidy));
  });

  it('keeps a file’s mode, and a link a link', async () => {
    await chmod(join(folder, 'untidy.md'), 0o640);
    await symlink('untidy.md', join(folder, 'link.md'));
    expect((await run('@/link.md')).code).toBe(0);
    expect((await stat(join(folder, 'untidy.md'))).mode & 0o777).toBe(0o640);
    expect((await lstat(join(folder, 'link.md'))).isSymbolicLink()).toBe(true);
    expect(await read('untidy.md')).toBe(`# Note\n\n${tidy}`);
  });

  it('says what cannot be read, formats the rest, and exits 2', async () => {
    const latin = Buffer.from([0x23, 0xe9, 0x0a, ...Buffer.from(untidy)]);
    await writeFile(join(folder, 'latin1.md'), latin);
    const { code, out, err } = await run('@', '@/absent.md', '@/*.txt');
    expect(code).toBe(2);
    expect(err.split('\n')).toEqual([
      'meniscus: @/latin1.md: is not UTF-8 text (line 1); save it as UTF-8',
      'meniscus: @/absent.md: there is no such file or folder',
      'meniscus: @/*.txt: the pattern matches no file',
      '',
    ]);
    expect(out).toBe('@/untidy.md: 4 lines formatted\n2 notes: 1 formatted\n');
    expect(await readFile(join(folder, 'latin1.md'))).toEqual(latin);
  });

  it('leaves a note as it was where it cannot be written beside it', async () => {
    await writeFile(join(folder, `.untidy.md.${process.pid}.meniscus-tmp`), 'of somebody else');
    const { code, err } = await run('@/untidy.md');
    expect([code, err]).toEqual([2, 'meniscus: @/untidy.md: cannot be written (EEXIST)\n']);
    expect(await read('untidy.md')).toBe(`# Note\n\n${untidy}`);
    expect(await read(`.untidy.md.${process.pid}.meniscus-tmp`)).toBe('of somebody else');
  });

  it.each([
    [[], /no path given/],
    [['-', 'a.md'], /- stands alone/],
    [['--format', 'json', 'a.md'], /format/],
  ])('refuses %j', async (argv, reason) => {
    const { code, err } = await run(...argv);
    expect(code).toBe(2);
    expect(err).toMatch(reason);
  });
});
