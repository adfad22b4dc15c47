/** What files are read, and what is said of those that are not. No source: our own design. */
import { execFileSync } from 'node:child_process';
import { chmod, mkdir, mkdtemp, rm, symlink, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/cli/check.ts';
import { findNotes } from '../../src/cli/notes.ts';
import { readTextFile } from '../../src/files/read-text.ts';
import { fenced } from '../annotated.ts';

let folder = '';
const NOTE = fenced('mixture bag\n  1 L sodium chloride 0.9%');
const posix = process.platform !== 'win32';
const isRoot = process.getuid?.() === 0;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-read-'));
  await mkdir(join(folder, '.git'));
  await mkdir(join(folder, 'folder.md'));
  await writeFile(join(folder, 'good.md'), NOTE);
  await writeFile(join(folder, 'mark.md'), `\uFEFF${NOTE}`);
  await writeFile(join(folder, 'latin.md'), Buffer.from(`# a\n\nb \u00E9\n${NOTE}`, 'latin1'));
  await writeFile(join(folder, 'utf-16le.md'), Buffer.from(`\uFEFF${NOTE}`, 'utf16le'));
  await writeFile(join(folder, 'utf-16be.md'), Buffer.from(`\uFEFF${NOTE}`, 'utf16le').swap16());
  await writeFile(join(folder, 'utf-16-unmarked.md'), Buffer.from(NOTE, 'utf16le'));
  await writeFile(join(folder, 'nul.md'), `# a\n\n\0${NOTE}`);
  await writeFile(join(folder, 'cut.md'), Buffer.from('µ').subarray(0, 1));
  await writeFile(join(folder, 'huge.md'), '');
  await truncate(join(folder, 'huge.md'), 64 * 1024 * 1024 + 1);
  await writeFile(join(folder, 'esc\u001b[2Jape.md'), fenced('mixture bag\n  nonsense'));
  await symlink('self.md', join(folder, 'self.md'));
  await symlink('nowhere.md', join(folder, 'nowhere.md.md'));
  if (posix) execFileSync('mkfifo', [join(folder, 'pipe.md')]);
});

afterAll(async () => {
  await chmod(join(folder, 'closed/inner'), 0o700).catch(() => {});
  await rm(folder, { recursive: true, force: true });
});

async function run(...paths: readonly string[]) {
  let [out, err] = ['', ''];
  const code = await check(
    {
      command: 'check',
      paths: paths.map((path) => join(folder, path)),
      format: 'text',
      failOn: 'error',
      policy: null,
      stdinPath: '',
    },
    { out: { write: (text: string) => (out += text) }, err: { write: (text: string) => (err += text) } },
  );
  return { code, out, err: err.replaceAll(`${folder}/`, '') };
}

describe('a file that is not read', () => {
  it.each([
    ['folder.md/none.md', 'there is no such file or folder'],
    ['good.md/none.md', 'there is no such file or folder'],
    ['latin.md', 'is not UTF-8 text (line 3); save it as UTF-8'],
    ['cut.md', 'is not UTF-8 text (line 1); save it as UTF-8'],
    ['utf-16le.md', 'is UTF-16 text; save it as UTF-8'],
    ['utf-16be.md', 'is UTF-16 text; save it as UTF-8'],
    ['utf-16-unmarked.md', 'is not plain text (line 1 holds a NUL byte, as UTF-16 does); save it as UTF-8'],
    ['nul.md', 'is not plain text (line 3 holds a NUL byte, as UTF-16 does); save it as UTF-8'],
    ['huge.md', 'larger than 64 MB, not read'],
    ['self.md', 'cannot be read (its links lead in a circle)'],
    ['nowhere.md.md', 'there is no such file or folder'],
    ...(posix ? [['pipe.md', 'is a pipe, a device or a socket and no file; not read']] : []),
  ])('is named with the reason, and the others are checked: %s', async (path, reason) => {
    const { code, out, err } = await run(path!, 'good.md');
    expect(err).toBe(`meniscus: ${path}: ${reason}\n`);
    expect(code).toBe(2);
    expect(out).toContain('1 note, 1 mixture');
  });

  it('is found in a folder, and those beside it are checked', async () => {
    const { code, out, err } = await run('.');
    expect(code).toBe(2);
    expect(err.trimEnd().split('\n')).toHaveLength(7);
    expect(out).toContain('3 notes');
  });

  it.runIf(posix)('is in a folder that may not be listed, which is said', async () => {
    await mkdir(join(folder, 'closed/inner'), { recursive: true });
    await writeFile(join(folder, 'closed/note.md'), NOTE);
    await chmod(join(folder, 'closed/inner'), 0);
    // A superuser may list every folder, so somebody else looks.
    await chmod(folder, 0o755);
    if (isRoot) process.seteuid?.(65534);
    const { code, err } = await run('closed').finally(() => isRoot && process.seteuid?.(0));
    expect(err).toBe('meniscus: closed/inner: cannot be read (permission is denied)\n');
    expect(code).toBe(2);
  });

  it('may have gone since it was found', async () => {
    await writeFile(join(folder, 'fleeting.md'), NOTE);
    const [path] = await findNotes([join(folder, 'fleeting.md')]);
    await rm(join(folder, 'fleeting.md'));
    const file = await readTextFile(path as string);
    expect('reason' in file && file.reason).toMatch(/fleeting\.md: cannot be read \(there is no such file\)$/);
  });
});

it('a byte order mark is no fault', async () => {
  expect(await run('mark.md')).toMatchObject({ code: 0, err: '' });
});

it('a name that a terminal would obey is shown', async () => {
  const { out } = await run('esc\u001b[2Jape.md');
  expect(out).toContain('esc\u241b[2Jape.md:3:3');
  expect(out).not.toContain('\u001b');
});

describe('local policy', () => {
  it.runIf(posix)(
    'that is a link out of the workspace, a pipe or a folder is not read, and the note is checked',
    async () => {
      const policy = join(folder, 'infusion-policy.json');
      const outside = await mkdtemp(join(tmpdir(), 'meniscus-outside-'));
      await writeFile(join(outside, 'policy.json'), '{ "password": 1 }');
      const shapes: readonly (readonly [() => unknown, string])[] = [
        [() => symlink(join(outside, 'policy.json'), policy), 'is a link that leads out of the workspace'],
        [() => symlink('/dev/zero', policy), 'is a link that leads out of the workspace'],
        [() => execFileSync('mkfifo', [policy]), 'is a pipe, a device or a socket'],
        [() => mkdir(policy), 'cannot be read (it is a folder)'],
      ];
      for (const [make, reason] of shapes) {
        await make();
        const { code, out, err } = await run('good.md');
        expect(err).toContain(`infusion-policy.json: ${reason}`);
        expect(out).toContain('1 note, 1 mixture: nothing to mend');
        expect(out).not.toContain('password');
        expect(code).toBe(2);
        await rm(policy, { recursive: true });
      }
      await rm(outside, { recursive: true });
    },
  );
});
