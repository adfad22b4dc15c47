import { chmod, lstat, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { update } from '../../src/cli/update.ts';
import { fenced } from '../annotated.ts';

let folder = '';

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
});

afterEach(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(['update', ...argv.map((text) => text.replace('@', folder))]);
  if (given.command !== 'update') return { code: 2, out: '', err: JSON.stringify(given) };
  let out = '';
  let err = '';
  const code = await update(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out: out.replaceAll(folder, '@'), err: err.replaceAll(folder, '@') };
}

const BAG = fenced('mixture bag\n  1 L sodium chloride 0.9%');
const STALE = `\uFEFF# Bag\r\n\r\n${BAG}\r\nIt has [140 mmol/L](infusion:bag/sodium), \tno more.  \r\n`;

describe('meniscus update', () => {
  it('writes what is stale, tells it line by line, and leaves every other byte and the mode', async () => {
    const path = join(folder, 'bag.md');
    await writeFile(path, STALE);
    await chmod(path, 0o640);
    const { code, out, err } = await run('@/bag.md');
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('bag.md:8\n  - It has [140 mmol/L](infusion:bag/sodium)');
    expect(out).toContain('  + It has [154 mmol/L](infusion:bag/sodium)');
    expect(out.trimEnd().split('\n').at(-1)).toBe('1 place in 1 note updated');
    expect(await readFile(path, 'utf8')).toBe(STALE.replace('140', '154'));
    expect((await stat(path)).mode & 0o777).toBe(0o640);
    expect(await readdir(folder)).toEqual(['bag.md']);
    expect((await run('@/bag.md')).out).toBe('nothing to update\n');
  });

  it('with --dry-run changes nothing, and exits 1 when something would change', async () => {
    const path = join(folder, 'bag.md');
    await writeFile(path, STALE);
    const { code, out } = await run('@', '--dry-run');
    expect(code).toBe(1);
    expect(out).toContain('would be updated');
    expect(await readFile(path, 'utf8')).toBe(STALE);
    await writeFile(path, STALE.replace('140', '154'));
    expect((await run('@', '--dry-run')).code).toBe(0);
  });

  it('writes a table in place of an old one', async () => {
    const path = join(folder, 'table.md');
    const table = (value: string) =>
      `> <!-- infusion:compare bag by sodium -->\n>\n> |  | sodium, mmol/L |\n> | --- | ---: |\n> | bag | ${value} |\n>\n> <!-- /infusion -->\n`;
    await writeFile(path, `${BAG}\n${table('140')}`);
    const { out } = await run('@/table.md');
    expect(out).toContain('table.md:10\n  - > | bag | 140 |\n  + > | bag | 154 |\n');
    expect(await readFile(path, 'utf8')).toBe(`${BAG}\n${table('154')}`);
  });

  it('leaves alone what is withheld or broken, and says so', async () => {
    const note = `${fenced('mixture bag\n  1 L sodum chloride 0.9%')}\n[1 mmol/L](infusion:bag/sodium) [1 L](infusion:bug/volume)\n`;
    await writeFile(join(folder, 'bad.md'), note);
    const { code, out, err } = await run('@/bad.md');
    expect([code, out]).toEqual([0, 'nothing to update\n']);
    expect(err).toContain('bad.md:6: left as it is: bag/sodium has no results');
    expect(err).toContain('bad.md:6: left as it is: ‘bug’ was read as a name.');
    expect(await readFile(join(folder, 'bad.md'), 'utf8')).toBe(note);
  });

  it('follows a link to its file', async () => {
    await writeFile(join(folder, 'bag.md'), STALE);
    await symlink(join(folder, 'bag.md'), join(folder, 'link.md'));
    await run('@/link.md');
    expect((await lstat(join(folder, 'link.md'))).isSymbolicLink()).toBe(true);
    expect(await readFile(join(folder, 'bag.md'), 'utf8')).toBe(STALE.replace('140', '154'));
  });

  it('exits 2 for what cannot be read, and does the rest', async () => {
    await writeFile(join(folder, 'bag.md'), STALE);
    const { code, err } = await run('@/none.md', '@/bag.md');
    expect(code).toBe(2);
    expect(err).toContain('there is no such file or folder');
    expect(await readFile(join(folder, 'bag.md'), 'utf8')).toBe(STALE.replace('140', '154'));
    expect((await run()).code).toBe(2);
    expect((await run('@/bag.md', '--format', 'json')).code).toBe(2);
  });
});
