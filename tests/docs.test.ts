/** The generated documentation on disk is what the code gives; pages of the docs link to files that exist. */
import { existsSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { generatedDocs } from '../scripts/generated-docs.ts';

const root = fileURLToPath(new URL('../', import.meta.url));

describe('the documentation', () => {
  it('is up to date (npm run docs)', async () => {
    for (const [path, text] of await generatedDocs()) expect(await readFile(root + path, 'utf8'), path).toBe(text);
  });

  it('has no page of a check that does not exist', async () => {
    const generated = await generatedDocs();
    for (const page of await readdir(`${root}docs/checks`))
      expect(generated.has(`docs/checks/${page}`), page).toBe(true);
  });

  it('links to files that exist', async () => {
    const pages = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md'];
    for (const page of await readdir(`${root}docs`, { recursive: true }))
      if (page.endsWith('.md')) pages.push(join('docs', page));
    for (const page of pages) {
      const text = (await readFile(root + page, 'utf8')).replace(/^(`{3,}|~{3,})[\s\S]*?^\1/gm, '');
      for (const [, target = ''] of text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)) {
        if (/^[a-z]+:/.test(target)) continue;
        expect(existsSync(join(root, dirname(page), target)), `${page} links to ${target}`).toBe(true);
      }
    }
  });
});
