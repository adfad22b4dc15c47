/** `.meniscusignore`: what it leaves out is what git leaves out by the same lines in `.gitignore`. */
import { execFileSync } from 'node:child_process';
import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findNotes } from '../../src/cli/notes.ts';

const FILES = [
  'a.md',
  'draft.md',
  'archive/index.md',
  'archive/old.md',
  'archive/deep/index.md',
  'ward/a.md',
  'ward/draft.md',
  'ward/tmp/a.md',
  'ward/tmp/deep/a.md',
  'ward/own/b.md',
  'ward/own/keep/c.md',
  'odd [1] !#/a.md',
  'odd [1] !#/x y.md',
  'odd [1] !#/deep/a.md',
];
const IGNORES = {
  '.': '# a remark\n\ndraft.md\n/archive/*\n!/archive/index.md\nward/own/keep/\n',
  ward: '!draft.md\ntmp/\n/own/b.md\r\n',
  'ward/own': '!keep/\n!b.md\n',
  'odd [1] !#': 'x\\ y.md\ndeep/a.md\n',
};

let folder = '';
const before = process.cwd();

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-ignored-'));
  execFileSync('git', ['init', '--quiet', folder], { env: { PATH: process.env.PATH } });
  for (const file of FILES) {
    await mkdir(join(folder, dirname(file)), { recursive: true });
    await writeFile(join(folder, file), 'a note\n');
  }
  for (const [place, lines] of Object.entries(IGNORES)) {
    await writeFile(join(folder, place, '.meniscusignore'), lines);
    await cp(join(folder, place, '.meniscusignore'), join(folder, place, '.gitignore'));
  }
  process.chdir(folder);
});

afterAll(async () => {
  process.chdir(before);
  await rm(folder, { recursive: true, force: true });
});

describe('ignore files', () => {
  it('leave out of a folder what git leaves out', async () => {
    const listed = execFileSync('git', ['ls-files', '-z', '--others', '--exclude-standard', '--', '*.md'], {
      encoding: 'utf8',
      env: { PATH: process.env.PATH },
    });
    const kept = listed.split('\0').filter(Boolean).sort();
    expect(kept.length).toBeLessThan(FILES.length);
    expect(await findNotes(['.'])).toEqual(kept);
  });

  it('hold below the folder that is named, and for globs', async () => {
    expect(await findNotes(['archive'])).toEqual(['archive/index.md']);
    expect(await findNotes(['*.md', 'ward/tmp/*.md'])).toEqual(['a.md']);
  });

  it('do not hold for a file that is named', async () => {
    expect(await findNotes(['draft.md', 'ward/tmp/a.md', '.'])).toContain('draft.md');
    expect((await findNotes(['draft.md', 'ward/tmp/a.md', '.'])).slice(0, 2)).toEqual(['draft.md', 'ward/tmp/a.md']);
  });

  it('that cannot be read are said, and leave nothing out', async () => {
    await mkdir('broken/.meniscusignore', { recursive: true });
    await writeFile('broken/a.md', 'a note\n');
    expect(await findNotes(['broken'])).toEqual([
      { reason: `${join(process.cwd(), 'broken/.meniscusignore')}: cannot be read (EISDIR)` },
      'broken/a.md',
    ]);
  });
});
