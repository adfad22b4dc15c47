import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments.ts';
import { check } from '../../src/cli/check.ts';
import { fenced } from '../annotated.ts';

let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
  await mkdir(join(folder, 'notes/node_modules/other'), { recursive: true });
  await writeFile(
    join(folder, 'notes/good.md'),
    `# Good\n\n${fenced('mixture bag "A bag"\n  1 L sodium chloride 0.9%')}`,
  );
  await writeFile(join(folder, 'notes/bad.markdown'), fenced('mixture bag\n  1 L sodum chloride 0.9%'));
  await writeFile(join(folder, 'notes/warned.md'), fenced('mixture bag\n  1 L 0.45 NS'));
  await writeFile(join(folder, 'notes/plain.txt'), fenced('mixture bag\n  nonsense'));
  await writeFile(join(folder, 'notes/node_modules/other/README.md'), fenced('mixture bag\n  nonsense'));
  await writeFile(join(folder, 'latin1.md'), Buffer.from([0x23, 0x20, 0xe9, 0x0a]));
  await symlink(join(folder, 'notes'), join(folder, 'notes/loop'));
});

afterAll(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(argv.map((text) => text.replace('@', folder)));
  if (given.command !== 'check')
    return { code: given.command === 'wrong' ? 2 : 0, out: '', err: JSON.stringify(given) };
  let out = '';
  let err = '';
  const code = await check(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out, err };
}

describe('meniscus check', () => {
  it('sets out the results of one note, and exits 0 when nothing fails', async () => {
    const { code, out, err } = await run('check', '@/notes/good.md');
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toContain('bag  = 1000 mL, sodium 154 mmol/L, isotonic');
    expect(out.trimEnd().split('\n').at(-1)).toBe('1 note, 1 mixture: nothing to mend');
  });

  it('underlines the place, gives the reason and the mend, and exits 1', async () => {
    const { code, out } = await run('check', '@/notes/bad.markdown');
    expect(code).toBe(1);
    const lines = out.split('\n');
    const shown = lines.findIndex((line) => line.includes('| '));
    expect(lines[shown]).toBe('  3 |   1 L sodum chloride 0.9%');
    expect(lines[shown + 1]).toBe('    |       ~~~~~~~~~~~~~~');
    expect(lines[shown - 1]).toMatch(/bad\.markdown:3:7 {2}error {2}unknown-name$/);
    expect(out).toContain('Did you mean ‘sodium chloride’?');
    expect(out).toMatch(/1 note, 1 mixture: 1 error\n$/);
  });

  it('reads a folder’s Markdown, leaves out node_modules and does not follow links in circles', async () => {
    const { code, out } = await run('check', '@/notes', '--format', 'json');
    const { files, summary } = JSON.parse(out);
    expect(code).toBe(1);
    expect(files.map(({ path }: { path: string }) => path.split('/').at(-1))).toEqual([
      'bad.markdown',
      'good.md',
      'warned.md',
    ]);
    expect(summary).toEqual({
      files: 3,
      mixtures: 3,
      orders: 0,
      errors: 1,
      warnings: 1,
      information: 0,
      hints: 0,
      accepted: 0,
    });
  });

  it('fails on warnings when asked', async () => {
    expect((await run('check', '@/notes/warned.md')).code).toBe(0);
    expect((await run('check', '@/notes/warned.md', '--fail-on', 'warning')).code).toBe(1);
  });

  it('takes globs, each note once', async () => {
    const { out } = await run('check', '@/notes/*.md', '@/notes/good.md', '--format', 'json');
    expect(JSON.parse(out).files).toHaveLength(2);
  });

  it('says in one line what could not be read, checks the rest and exits 2', async () => {
    for (const path of ['@/none.md', '@/none/*.md', '@/latin1.md']) {
      const { code, out, err } = await run('check', path, '@/notes/good.md');
      expect(code).toBe(2);
      expect(err.trimEnd().split('\n')).toHaveLength(1);
      expect(out).toContain('1 note, 1 mixture: nothing to mend');
    }
  });

  it.each([
    [['check']],
    [['check', 'a.md', '--format', 'sarif']],
    [['check', 'a.md', '--format', 'xml']],
    [['check', 'a.md', '--fail-on', 'hint']],
    [['check', 'a.md', '--policy', 'policy.json']],
    [['check', 'a.md', '--unheard-of']],
    [['brew']],
    [['update', 'a.md']],
  ])('exits 2 with a reason for %j', async (argv) => {
    const { code, err } = await run(...argv);
    expect(code).toBe(2);
    expect(JSON.parse(err).reason).toMatch(/\S/);
  });
});

describe('the JSON report', () => {
  it('has the published form', async () => {
    const { out } = await run('check', '@/notes/good.md', '--format', 'json');
    const [file] = JSON.parse(out).files;
    const [mixture] = file.mixtures;
    expect(mixture).toMatchObject({
      name: 'bag',
      title: 'A bag',
      line: 3,
      state: 'complete',
      volume: { value: '1000', unit: 'mL' },
      tonicity: { bag: 'isotonic', body: 'isotonic' },
      unknowns: [],
    });
    // 9 g ÷ 58.44 g/mol: the label says 154 mmol/L.
    expect(mixture.results.sodium).toEqual({ value: '154.004107', unit: 'mmol/L' });
    expect(mixture.results.potassium).toEqual({ value: '0', unit: 'mmol/L' });
    expect(mixture.results['free-water'].unit).toBe('mL/L');
    expect(file).toMatchObject({ policy: null, orders: [], numbers: [], accepted: [], diagnostics: [] });
  });

  it('gives no results for a mixture that is withheld', async () => {
    const { out } = await run('check', '@/notes/bad.markdown', '--format', 'json');
    const [file] = JSON.parse(out).files;
    expect(file.mixtures[0]).toMatchObject({ state: 'incomplete', volume: null, results: {}, tonicity: null });
    expect(file.diagnostics[0].range).toEqual({ start: { line: 2, character: 6 }, end: { line: 2, character: 20 } });
  });
});
