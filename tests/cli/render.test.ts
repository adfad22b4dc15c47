import { mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { render } from '../../src/cli/render.ts';
import { fenced } from '../annotated.ts';
import { wellFormed } from '../render/well-formed.ts';

let folder = '';

const NOTE = `\uFEFF---\ntitle: x\n---\n\n# Gastric *losses* & more\n\n<script>alert(1)</script>\n\n${fenced(
  'mixture gastric "Gastric / ../replacement"\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL',
)}`;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-'));
  await writeFile(join(folder, 'note.md'), NOTE);
  await writeFile(join(folder, 'untitled-note.md'), 'Text.\n');
  await writeFile(join(folder, 'sugar.md'), fenced('mixture sugar\n  1 L dextrose 5%'));
  await writeFile(join(folder, 'ward.md'), fenced('use ./sugar.md\nmixture half\n  500 mL sugar\n  500 mL water'));
  await writeFile(join(folder, 'policy.json'), '{ "terms": { "sugar": "glucose" } }');
});

afterAll(() => rm(folder, { recursive: true, force: true }));

async function run(...argv: string[]) {
  const given = readArguments(argv.map((text) => text.replace('@', folder)));
  if (given.command !== 'render') return { code: 2, out: '', err: given.command === 'wrong' ? given.reason : '' };
  let out = '';
  let err = '';
  const code = await render(given, {
    out: { write: (text: string) => (out += text) },
    err: { write: (text: string) => (err += text) },
  });
  return { code, out, err };
}

describe('meniscus render', () => {
  it('writes a whole page that needs nothing from elsewhere', async () => {
    const { code, out, err } = await run('render', '@/note.md');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">/);
    expect(out).toContain('<title>Gastric losses &amp; more</title>');
    expect(out).toContain('<h1>Gastric <em>losses</em> &amp; more</h1>');
    expect(out.match(/<svg/g)).toHaveLength(3);
    expect(out).not.toMatch(/<script|<link|\ssrc=|@import|url\(/);
    expect(out).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(out).not.toContain('title: x');
  });

  it('takes a title, and the file’s name where there is none', async () => {
    expect((await run('render', '@/note.md', '--title', 'A < B')).out).toContain('<title>A &lt; B</title>');
    expect((await run('render', '@/untitled-note.md')).out).toContain('<title>untitled-note</title>');
  });

  it('writes to a file, and each figure to one of its own', async () => {
    const { code, out } = await run('render', '@/note.md', '--out', '@/page.html', '--figures', '@/figures/of');
    expect([code, out]).toEqual([0, '']);
    expect(await readFile(join(folder, 'page.html'), 'utf8')).toContain('</html>');
    const names = (await readdir(join(folder, 'figures/of'))).sort();
    expect(names).toEqual([
      '01-gastric-replacement-vessels.svg',
      '02-gastric-replacement-bag-and-body.svg',
      '03-gastric-replacement-ion-columns.svg',
    ]);
    for (const name of names) {
      const svg = wellFormed((await readFile(join(folder, 'figures/of', name), 'utf8')).trim());
      expect(svg.attributes.xmlns).toBe('http://www.w3.org/2000/svg');
    }
  });

  it('puts a file in place whole, in place of the one that is there, and leaves nothing beside it', async () => {
    const path = join(folder, 'kept', 'page.html');
    await mkdir(join(folder, 'kept'));
    await writeFile(path, 'old', { mode: 0o640 });
    expect((await run('render', '@/note.md', '--out', '@/kept/page.html')).code).toBe(0);
    expect(await readFile(path, 'utf8')).toContain('</html>');
    expect((await stat(path)).mode & 0o777).toBe(0o640);
    expect(await readdir(join(folder, 'kept'))).toEqual(['page.html']);
    expect((await run('render', '@/note.md', '--out', '@/kept')).err).toContain(
      `${join(folder, 'kept')}: cannot be written`,
    );
  });

  it('saves the figures that are folded away as well', async () => {
    await writeFile(
      join(folder, 'asked.md'),
      fenced('mixture salt\n  1 L sodium chloride 0.9%\n  ask "How much?" show sodium'),
    );
    const { out } = await run('render', '@/asked.md', '--figures', '@/asked');
    expect(out).toContain('<details class="meniscus-answer"><summary>How much?</summary>');
    expect(await readdir(join(folder, 'asked'))).toHaveLength(3);
  });

  it('is under local policy', async () => {
    expect((await run('render', '@/sugar.md')).out).toContain('>dextrose</th>');
    expect((await run('render', '@/sugar.md', '--policy', '@/policy.json')).out).toContain('>glucose</th>');
  });

  it('has the fluids of the notes that the note uses', async () => {
    const { code, out } = await run('render', '@/ward.md');
    expect(code).toBe(0);
    expect(out).toContain('Hypotonic in the bag (126 mOsm/L)');
    expect(out).not.toContain('meniscus-finding meniscus-error');
  });

  it('says in one line what cannot be read or written, and exits 2', async () => {
    for (const argv of [
      ['@/none.md'],
      ['@/note.md', '--out', '@/nowhere/page.html'],
      ['@/note.md', '--figures', '@/note.md'],
      ['@/note.md', '--policy', '@/none.json'],
      [],
      ['@/note.md', '@/sugar.md'],
      ['@/note.md', '--out', ''],
      ['@/note.md', '--wrong'],
    ]) {
      const { code, out, err } = await run('render', ...argv);
      expect(code).toBe(2);
      expect(err.trim().split('\n')).toHaveLength(1);
      if (!argv.includes('--figures')) expect(out).toBe('');
    }
  });
});
