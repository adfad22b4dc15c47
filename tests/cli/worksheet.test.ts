import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { worksheet } from '../../src/cli/worksheet.ts';
import { fenced } from '../annotated.ts';

let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
  const block = `mixture bag "A bag"\n  1 L sodium chloride 0.9%
mixture claimed\n  1 L sodium chloride 0.9%\n  claim sodium 10 mmol/L
mixture broken\n  1 L sodum chloride 0.9%`;
  await writeFile(join(folder, 'note.md'), fenced(block));
  await writeFile(join(folder, 'infusion-policy.json'), '{}');
});

afterAll(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(['worksheet', ...argv.map((text) => text.replace('@', folder))]);
  if (given.command !== 'worksheet') return { code: 2, out: '', err: JSON.stringify(given) };
  let out = '';
  let err = '';
  const code = await worksheet(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out, err };
}

describe('meniscus worksheet', () => {
  it('prints Markdown, names the note and its policy, and exits 0', async () => {
    const { code, out, err } = await run('@/note.md', 'bag');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^# Worksheet: A bag\n/);
    expect(out).toMatch(/\| Note +\| \S+note\\\.md +\|/);
    expect(out).toMatch(/\| Local policy +\| \S+infusion-policy\\\.json +\|/);
  });

  it('takes a size and a number of bags', async () => {
    const { code, out } = await run('@/note.md', 'bag', '--for', '6 bags', '--to', '250 mL');
    expect(code).toBe(0);
    expect(out).toContain('250 mL in each bag, 1500 mL in all');
  });

  it('writes HTML to a file, and nothing to the terminal', async () => {
    const { code, out } = await run('@/note.md', 'bag', '--format', 'html', '--out', '@/sheet.html');
    expect([code, out]).toEqual([0, '']);
    expect(await readFile(join(folder, 'sheet.html'), 'utf8')).toMatch(/^<!DOCTYPE html>\n<html lang="en">/);
  });

  it('exits 1 when an error stands open, the sheet made, and when the mixture has no results', async () => {
    const claimed = await run('@/note.md', 'claimed');
    expect(claimed.code).toBe(1);
    expect(claimed.out).toContain('An error stands open in the note');
    const broken = await run('@/note.md', 'broken');
    expect([broken.code, broken.out]).toEqual([1, '']);
    expect(broken.err).toMatch(/^meniscus: ‘broken’ has no worksheet, since .*\n$/);
  });

  it.each([
    [['@/none.md', 'bag'], 'none.md: cannot be read'],
    [['@/note.md', 'bog'], 'the note has no mixture ‘bog’; did you mean ‘bag’?'],
    [['@/note.md', 'bag', '--to', 'a lot'], 'a volume above zero is wanted'],
    [['@/note.md', 'bag', '--for', '0'], 'a number of bags from 1 to 999'],
    [['@/note.md'], 'worksheet takes a file and the name of a mixture'],
    [['@/note.md', 'bag', 'bag'], 'worksheet takes a file and the name of a mixture'],
    [['@/note.md', 'bag', '--format', 'pdf'], '--format takes markdown or html'],
    [['@/note.md', 'bag', '--out', '@/note.md'], 'is the note itself'],
    [['@/note.md', 'bag', '--out', '@/none/sheet.md'], 'cannot be written'],
    [['@/note.md', 'bag', '--policy', '@/none.json'], 'none.json: cannot be read'],
    [['@/note.md', 'bag', '--quick'], '--quick'],
  ])('%j exits 2 with the reason', async (argv, why) => {
    const { code, out, err } = await run(...argv);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });

  it('leaves the note as it was', async () => {
    expect(await readFile(join(folder, 'note.md'), 'utf8')).toContain('mixture bag "A bag"');
  });
});
