import { chmod, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { exportCommand } from '../../src/cli/export.ts';
import { uuid5 } from '../../src/cli/uuid.ts';
import { fenced } from '../annotated.ts';

let folder = '';
const NOTE = fenced(
  'mixture bag "A bag"\n  1 L sodium chloride 0.9%\nmixture claimed\n  1 L sodium chloride 0.9%\n  claim sodium 10 mmol/L\n' +
    'give 250 mL dextrose 20% over 6 h by peripheral vein as sugar',
);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
  await writeFile(join(folder, 'note.md'), NOTE);
});

afterEach(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(['export', ...argv.map((text) => text.replace('@', folder))]);
  if (given.command !== 'export') return { code: 2, out: '', err: JSON.stringify(given) };
  let out = '';
  let err = '';
  const code = await exportCommand(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out, err: err.replaceAll(folder, '@') };
}

describe('meniscus export', () => {
  it('prints a Bundle, or a table', async () => {
    const bundle = await run('@/note.md', 'bag');
    expect([bundle.code, bundle.err]).toEqual([0, '']);
    expect(JSON.parse(bundle.out).resourceType).toBe('Bundle');
    const table = await run('@/note.md', 'bag', '--format', 'csv');
    expect([table.code, table.out.split('\r\n')[1]]).toEqual([0, 'mixture,bag,,,,,,A bag']);
  });

  it('writes a new file, and puts it whole in place of another whose mode stays', async () => {
    expect(await run('@/note.md', 'bag', '--out', '@/bag.json')).toEqual({ code: 0, out: '', err: '' });
    const first = await readFile(join(folder, 'bag.json'), 'utf8');
    expect(first).toBe((await run('@/note.md', 'bag')).out);
    await chmod(join(folder, 'bag.json'), 0o640);
    expect((await run('@/note.md', 'bag', '--format', 'csv', '--out', '@/bag.json')).code).toBe(0);
    expect(await readFile(join(folder, 'bag.json'), 'utf8')).toMatch(/^record,/);
    expect((await stat(join(folder, 'bag.json'))).mode & 0o777).toBe(0o640);
    expect(await readdir(folder)).toEqual(['bag.json', 'note.md']);
  });

  it('does not write over the note, nor where no file can be', async () => {
    await symlink(join(folder, 'note.md'), join(folder, 'link.json'));
    for (const path of ['@/note.md', '@/link.json'])
      expect(await run('@/note.md', 'bag', '--out', path)).toEqual({
        code: 2,
        out: '',
        err: `meniscus: ${path}: is the note itself, and is not written over\n`,
      });
    expect(await readFile(join(folder, 'note.md'), 'utf8')).toBe(NOTE);
    expect((await run('@/note.md', 'bag', '--out', '@/none/bag.json')).err).toContain(
      'cannot be written (there is no such file)',
    );
    expect((await run('@/note.md', 'bag', '--out', '@')).code).toBe(2);
  });

  it('exits 1 for what has an error, and writes nothing', async () => {
    const { code, out, err } = await run('@/note.md', 'claimed', '--out', '@/claimed.json');
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/^meniscus: ‘claimed’ is not written out, since an error stands open in line 6/);
    expect(await readdir(folder)).toEqual(['note.md']);
  });

  it('exits 2 for what is not there', async () => {
    expect((await run('@/none.md', 'bag')).code).toBe(2);
    expect(await run('@/note.md', 'bug\u001b[31m')).toMatchObject({
      code: 2,
      err: expect.not.stringContaining('\u001b'),
    });
    expect((await run('@/note.md', 'bog')).err).toContain('did you mean ‘bag’?');
  });

  it('takes the policy beside the note, another, or none, and tells its name without its folder', async () => {
    await writeFile(join(folder, 'infusion-policy.json'), '{}');
    expect((await run('@/note.md', 'bag')).out).toContain('the built-in limits and infusion-policy.json.');
    expect((await run('@/note.md', 'bag')).out).not.toContain(folder);
    expect((await run('@/note.md', 'bag', '--policy', 'none')).out).toContain('Checked by the built-in limits.');
    expect((await run('@/note.md', 'bag', '--policy', '@/none.json')).code).toBe(2);
  });

  it.each([
    [['@/note.md'], 'export takes a file and the name'],
    [['@/note.md', 'a', 'b'], 'export takes a file and the name'],
    [['@/note.md', 'a', '--format', 'xml'], '--format takes fhir or csv'],
    [['@/note.md', 'a', '--out', ''], '--out takes a file'],
    [['@/note.md', 'a', '--policy', ''], '--policy takes'],
    [['@/note.md', 'a', '--other'], '--other'],
  ])('refuses %j', async (argv, reason) => {
    const { code, err } = await run(...argv);
    expect(code).toBe(2);
    expect(err).toContain(reason);
  });
});

it('makes the UUIDs of version 5 that others make', () => {
  // uuid.uuid5(uuid.NAMESPACE_DNS, 'www.example.com') of Python's standard library.
  expect(uuid5('6ba7b810-9dad-11d1-80b4-00c04fd430c8', 'www.example.com')).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
});
