/** What docs/continuous-integration.md tells people to put into hooks and build servers, run as it stands there. */
import { chmod, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { fenced } from '../annotated.ts';
import { type BuiltCommand, builtCommand } from './built-command.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const CLEAN = fenced('mixture bag "A bag"\n  1 L sodium chloride 0.9%');
const WRONG = fenced('mixture bag "A bag"\n  1 L sodum chloride 0.9%');

let command: BuiltCommand;
let folder = '';
let page = '';

beforeAll(async () => {
  command = await builtCommand();
  page = await readFile(`${root}docs/continuous-integration.md`, 'utf8');
});
afterAll(() => command.remove());

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-ci-'));
  await git('init', '--quiet');
  return () => rm(folder, { recursive: true, force: true });
});

/** The block behind a mark of the page. */
function example(mark: string): string {
  const found = new RegExp(`<!-- ${mark} -->\n\n\`\`\`\\w+\n([\\s\\S]*?)\`\`\``).exec(page)?.[1];
  if (!found) throw new Error(`the page has no ${mark}`);
  return found;
}

const sh = (script: string) => command.run('sh', ['-c', script], folder);
const git = (...parameters: string[]) =>
  command.run('git', ['-c', 'user.name=Ward', '-c', 'user.email=ward@hospital.example', ...parameters], folder);
const put = (path: string, text: string) => writeFile(join(folder, path), text);

describe('the plain git hook', () => {
  beforeEach(async () => {
    await mkdir(join(folder, '.git/hooks'), { recursive: true });
    await put('.git/hooks/pre-commit', example('git-hook'));
    await chmod(join(folder, '.git/hooks/pre-commit'), 0o755);
  });

  it('lets a clean note through', async () => {
    await put('a note.md', CLEAN);
    await git('add', '.');
    expect((await git('commit', '-m', 'A bag')).code).toBe(0);
  });

  it('refuses an error, and says what it is', async () => {
    await put('a note.md', WRONG);
    await git('add', '.');
    const { code, out, err } = await git('commit', '-m', 'A bag');
    expect(code).not.toBe(0);
    expect(out + err).toMatch(/^a note\.md:3:7 {2}error {2}unknown-name$/m);
    expect((await git('log')).code).not.toBe(0);
  });

  it('checks what is committed, with the notes that it uses, and not what lies beside it', async () => {
    await put('base.md', CLEAN);
    await put('used.md', fenced('use ./base.md\nmixture half\n  500 mL bag'));
    await git('add', '.');
    await put('base.md', WRONG);
    await put('other.md', WRONG);
    expect((await git('commit', '-m', 'Both')).code).toBe(0);
    await git('add', 'base.md');
    expect((await git('commit', '-m', 'Wrong')).code).not.toBe(0);
  });

  it('has nothing to say of a commit without notes', async () => {
    await put('data.txt', 'x');
    await git('add', '.');
    expect((await git('commit', '-m', 'No note')).code).toBe(0);
  });
});

describe('the hook of the pre-commit framework', () => {
  it('runs the command that the package brings, over the notes of the commit', async () => {
    const hooks = await readFile(`${root}.pre-commit-hooks.yaml`, 'utf8');
    const entry = /^ {2}entry: (.*)$/m.exec(hooks)![1]!;
    expect(/^- id: (.*)$/m.exec(hooks)![1]).toBe(/- id: (.*)$/m.exec(page)![1]);
    expect(Object.keys(packageJson.bin)).toContain(entry.split(' ')[0]);
    const parameters = /args: \[(.*)\]/.exec(page)![1]!.replaceAll(',', '');
    await put('clean note.md', CLEAN);
    await put('wrong.md', WRONG);
    expect((await sh(`${entry} ${parameters} 'clean note.md'`)).code).toBe(0);
    expect((await sh(`${entry} ${parameters} 'clean note.md' wrong.md`)).code).toBe(1);
  });

  it('has a package that builds itself when it is packed, and prints its name alone', async () => {
    expect(packageJson.scripts.prepack).toBe('npm run build');
    expect(await readFile(`${root}.npmrc`, 'utf8')).toMatch(/^foreground-scripts=false$/m);
  });
});

describe('the workflow', () => {
  const check = () => /- run: (meniscus .*)$/m.exec(example('workflow'))![1]!;

  it('passes clean notes', async () => {
    await put('note.md', CLEAN);
    expect(await sh(check())).toMatchObject({ code: 0, err: '' });
  });

  it('annotates an error and fails', async () => {
    await put('note.md', WRONG);
    const { code, out } = await sh(check());
    expect(code).toBe(1);
    expect(out).toMatch(/^::error file=note\.md,line=3,endLine=3,col=7,endColumn=21,title=unknown-name::‘sodum/m);
  });

  it('takes the archive of this version', () => {
    expect(example('workflow')).toContain(`${packageJson.name}-${packageJson.version}.tgz`);
  });
});

describe('the script for any build server', () => {
  it.each([
    [CLEAN, 0, 'failures="0"', '"results":[]'],
    [WRONG, 1, 'failures="1"', '"ruleId":"unknown-name"'],
  ])('writes both reports and ends as the check does', async (note, code, junit, sarif) => {
    await put('note.md', note);
    expect((await sh(example('build-server'))).code).toBe(code);
    expect(await readFile(join(folder, 'meniscus-junit.xml'), 'utf8')).toContain(junit);
    expect(await readFile(join(folder, 'meniscus.sarif'), 'utf8')).toContain(sarif);
  });

  it('refuses unformatted blocks and numbers left behind where asked', async () => {
    const more = `set -e\n${example('build-server-more')}`;
    await put('note.md', fenced('mixture bag "A bag"\n  1 L sodium chloride 0.9 %'));
    await sh('meniscus format .');
    expect((await sh(more)).code).toBe(0);
    await put('unformatted.md', fenced('mixture bag "A bag"\n       1   L sodium chloride 0.9 %'));
    expect((await sh(more)).code).toBe(1);
    await sh('meniscus format .');
    await put('stale.md', `${await readFile(join(folder, 'note.md'), 'utf8')}\n[77 mmol/L](infusion:bag/sodium)\n`);
    expect((await sh(more)).code).toBe(1);
  });
});
