import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
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

  it('says what was taken of an order that is worked out, and nothing of one that is withheld', async () => {
    const order = (fluid: string) => fenced(`give 500 mL ${fluid} over 4 h by central vein as bag`);
    await writeFile(join(folder, 'order.md'), order('sodium chloride 0.9%'));
    await writeFile(join(folder, 'withheld.md'), order('sodum chloride 0.9%'));
    expect((await run('check', '@/order.md')).out).toContain('Taken: volumes of liquids add.');
    expect((await run('check', '@/withheld.md')).out).not.toContain('Taken');
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
    [['check', 'a.md', '--format', 'xml']],
    [['check', 'a.md', '--fail-on', 'hint']],
    [['check', 'a.md', '--policy', '']],
    [['check', 'a.md', '--unheard-of']],
    [['brew']],
    [['export', 'a.md']],
    [['update']],
  ])('exits 2 with a reason for %j', async (argv) => {
    const { code, err } = await run(...argv);
    expect(code).toBe(2);
    expect(JSON.parse(err).reason).toMatch(/\S/);
  });
});

describe('local policy', () => {
  let ward = '';
  const rounded = fenced('mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 150 mmol/L');

  beforeAll(async () => {
    ward = join(folder, 'hospital/ward');
    await mkdir(join(ward, 'inner'), { recursive: true });
    await mkdir(join(folder, 'hospital/.git'));
    await mkdir(join(folder, 'alone/inner'), { recursive: true });
    await writeFile(join(folder, 'infusion-policy.json'), '{ "claim-tolerance": "0.1 %" }');
    await writeFile(join(folder, 'hospital/infusion-policy.json'), '{ "severities": { "nominal-claim": "warning" } }');
    await writeFile(join(ward, 'infusion-policy.json'), '{ "severities": { "nominal-claim": "off" }, "prose": 1 }');
    for (const note of ['hospital/a.md', 'hospital/ward/b.md', 'hospital/ward/inner/c.md', 'alone/inner/d.md'])
      await writeFile(join(folder, note), rounded);
    await writeFile(join(folder, 'latin1.json'), Buffer.from([0x22, 0xe9, 0x22]));
  });

  const filesOf = async (...argv: string[]) => {
    const { out, code } = await run('check', ...argv, '--format', 'json');
    const { files, summary } = JSON.parse(out);
    const told = files.map(
      ({ path, policy, diagnostics }: { path: string; policy: string | null; diagnostics: { code: string }[] }) => [
        path.replace(`${folder}/`, ''),
        policy?.replace(`${folder}/`, '') ?? null,
        ...diagnostics.map((diagnostic) => diagnostic.code),
      ],
    );
    return { told, summary, code };
  };

  it('is the nearest in or above the note’s folder, its own findings told once and first', async () => {
    const { told, summary, code } = await filesOf('@/hospital');
    expect(told).toEqual([
      ['hospital/a.md', 'hospital/infusion-policy.json', 'nominal-claim'],
      ['hospital/ward/infusion-policy.json', null, 'policy-invalid'],
      ['hospital/ward/b.md', 'hospital/ward/infusion-policy.json'],
      ['hospital/ward/inner/c.md', 'hospital/ward/infusion-policy.json'],
    ]);
    expect(summary).toMatchObject({ files: 4, errors: 1, warnings: 1, information: 0 });
    expect(summary).not.toHaveProperty('policies');
    expect(code).toBe(1);
  });

  it('is not looked for above the folder with .git, nor outside the working directory', async () => {
    await rm(join(folder, 'hospital/infusion-policy.json'));
    expect((await filesOf('@/hospital/a.md')).told).toEqual([['hospital/a.md', null, 'nominal-claim']]);
    expect((await filesOf('@/alone/inner/d.md')).told).toEqual([['alone/inner/d.md', null, 'nominal-claim']]);
  });

  it('is looked for up to the working directory where there is no .git', async () => {
    const before = process.cwd();
    process.chdir(folder);
    try {
      expect((await filesOf('alone/inner/d.md')).told).toEqual([
        ['alone/inner/d.md', 'infusion-policy.json', 'claim-mismatch'],
      ]);
    } finally {
      process.chdir(before);
    }
  });

  it('is the one that is named, or none', async () => {
    expect((await filesOf('@/hospital/ward/b.md', '--policy', '@/infusion-policy.json')).told).toEqual([
      ['hospital/ward/b.md', 'infusion-policy.json', 'claim-mismatch'],
    ]);
    expect((await filesOf('@/hospital/ward/b.md', '--policy', 'none')).told).toEqual([
      ['hospital/ward/b.md', null, 'nominal-claim'],
    ]);
  });

  it('that is named and cannot be read is said in one line, and nothing is checked', async () => {
    for (const policy of ['@/none.json', '@/latin1.json', '@/hospital']) {
      const { code, out, err } = await run('check', '@/notes/good.md', '--policy', policy);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err.trimEnd().split('\n')).toHaveLength(1);
    }
  });

  it('that is found and cannot be read is said in one line, and the notes are checked without it', async () => {
    await mkdir(join(folder, 'odd/infusion-policy.json'), { recursive: true });
    for (const name of ['e.md', 'f.md']) await writeFile(join(folder, 'odd', name), rounded);
    const { code, out, err } = await run('check', '@/odd');
    expect(code).toBe(2);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(out).toMatch(/2 notes, 2 mixtures: 2 for information\n$/);
  });

  it('has a block of its own in the text report, and counts as no note', async () => {
    const { out } = await run('check', '@/hospital/ward');
    expect(out.match(/infusion-policy\.json:1:54 {2}error {2}policy-invalid\n/g)).toHaveLength(1);
    expect(out).toContain('‘prose’ is not written as it must be.');
    expect(out).toMatch(/2 notes, 2 mixtures: 1 error\n$/);
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
