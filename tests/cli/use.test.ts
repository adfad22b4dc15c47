/** Notes that use others, read from real folders. No source: our own design. */
import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { check } from '../../src/cli/check.ts';
import { fenced } from '../annotated.ts';

let folder = '';
const SALINE = fenced('mixture gastric\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL');

async function write(files: Readonly<Record<string, string | Uint8Array>>): Promise<void> {
  for (const [path, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text);
  }
}

beforeAll(async () => {
  folder = await realpath(await mkdtemp(join(tmpdir(), 'meniscus-use-')));
  await mkdir(join(folder, 'ws/.git'), { recursive: true });
  await write({ 'outside.md': SALINE, 'ws/formulary.md': SALINE });
});

afterAll(() => rm(folder, { recursive: true, force: true }));

/** Of each file its path, and its findings as `code: place`. */
async function told(...paths: readonly string[]) {
  const given = readArguments(['check', ...paths.map((path) => path.replace('@', folder)), '--format', 'json']);
  if (given.command !== 'check') throw new Error(JSON.stringify(given));
  let [out, err] = ['', ''];
  const code = await check(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  const { files } = JSON.parse(out);
  return {
    code,
    err,
    files,
    found: files.map(({ path, diagnostics }: { path: string; diagnostics: { code: string; message: string }[] }) => [
      path.replace(`${folder}/`, ''),
      ...diagnostics.map((diagnostic) => diagnostic.code),
    ]),
    messages: files.flatMap(({ diagnostics }: { diagnostics: { message: string }[] }) =>
      diagnostics.map(({ message }) => message),
    ),
  };
}

/** Checks one note of that block. */
async function note(path: string, block: string) {
  await write({ [path]: fenced(block) });
  return told(`@/${path}`);
}

describe('use on the command line', () => {
  it('reads from the folder of the note, up to the folder with .git', async () => {
    const { found, files, code, err } = await note(
      'ws/wards/a.md',
      'use ../formulary.md\nmixture bag\n  500 mL gastric',
    );
    expect([found, code, err]).toEqual([[['ws/wards/a.md']], 0, '']);
    expect(files[0].mixtures).toHaveLength(1);
    expect(files[0].mixtures[0].results.potassium.value).toMatch(/^19\.8/);
  });

  it('reads nothing above the workspace', async () => {
    for (const path of ['../../outside.md', '../../none.md', `${folder}/outside.md`]) {
      expect((await note('ws/wards/b.md', `use ${path}`)).found).toEqual([['ws/wards/b.md', 'outside-workspace']]);
    }
  });

  it('reads nothing above the note’s own folder where there is no .git and the working directory is elsewhere', async () => {
    await write({ 'free/near.md': SALINE });
    expect((await note('free/c.md', 'use ./near.md')).found).toEqual([['free/c.md']]);
    expect((await note('free/d.md', 'use ../outside.md')).found).toEqual([['free/d.md', 'outside-workspace']]);
  });

  it('reads up to the working directory where there is no .git', async () => {
    const before = process.cwd();
    await write({ 'free/deep/e.md': fenced('use ../near.md'), 'free/near.md': SALINE });
    process.chdir(join(folder, 'free'));
    try {
      expect((await told('deep/e.md')).found).toEqual([['deep/e.md']]);
    } finally {
      process.chdir(before);
    }
  });

  it('does not follow a link out of the workspace, and follows one within it', async () => {
    await symlink(join(folder, 'outside.md'), join(folder, 'ws/link.md'));
    await symlink(folder, join(folder, 'ws/up'));
    await symlink(join(folder, 'ws/formulary.md'), join(folder, 'ws/inner.md'));
    for (const path of ['./link.md', './up/outside.md']) {
      const { found, messages } = await note('ws/f.md', `use ${path}\nmixture bag\n  1 L gastric`);
      expect(found).toEqual([['ws/f.md', 'outside-workspace']]);
      expect(messages[0]).toContain('a link that leads out of the workspace');
    }
    expect((await note('ws/g.md', 'use ./inner.md\nuse ./formulary.md\nmixture bag\n  1 L gastric')).found).toEqual([
      ['ws/g.md'],
    ]);
  });

  it('says what cannot be read', async () => {
    await mkdir(join(folder, 'ws/folder.md'), { recursive: true });
    await write({
      'ws/latin1.md': Buffer.from([0x23, 0x20, 0xe9, 0x0a]),
      'ws/large.md': 'a'.repeat(2 * 1024 * 1024 + 1),
      'ws/text.txt': SALINE,
    });
    for (const [path, code] of [
      ['./none.md', 'missing-note'],
      ['./folder.md', 'missing-note'],
      ['./latin1.md', 'missing-note'],
      ['./text.txt', 'missing-note'],
      ['./large.md', 'over-limit'],
    ]) {
      expect((await note('ws/h.md', `use ${path}\nmixture bag\n  1 L gastric`)).found).toEqual([['ws/h.md', code]]);
    }
  });

  it('says a round in each of its notes once', async () => {
    await write({
      'ws/round/a.md': fenced('use ./b.md\nmixture one\n  1 L two'),
      'ws/round/b.md': fenced('use ../round/a.md\nmixture two\n  1 L one'),
    });
    expect((await told('@/ws/round')).found).toEqual([
      ['ws/round/a.md', 'circular-use'],
      ['ws/round/b.md', 'circular-use'],
    ]);
  });
});

describe('the formulary of local policy on the command line', () => {
  it('is for the notes below the policy, from the policy’s folder', async () => {
    await write({
      'ws/policy/infusion-policy.json': '{ "formulary": ["../formulary.md"] }',
      'ws/policy/ward/a.md': fenced('mixture bag\n  500 mL gastric'),
    });
    expect((await told('@/ws/policy')).found).toEqual([['ws/policy/ward/a.md']]);
  });

  it('has its missing notes said in the policy, each once, whatever notes it is for', async () => {
    await write({
      'ws/lost/infusion-policy.json': '{ "formulary": ["./none.md", "../formulary.md", "../../outside.md"] }',
      'ws/lost/a.md': fenced('mixture bag\n  500 mL gastric'),
      'ws/lost/b.md': fenced('mixture bag\n  500 mL other'),
    });
    const { found, files } = await told('@/ws/lost');
    expect(found).toEqual([
      ['ws/lost/infusion-policy.json', 'policy-invalid', 'policy-invalid'],
      ['ws/lost/a.md'],
      ['ws/lost/b.md', 'unknown-name'],
    ]);
    expect(files[0].diagnostics[0].range.start).toEqual({ line: 0, character: 16 });
  });
});
