/** What each check says of its examples is what its page on disk says; whoever changes words reads them there. */
import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { checkPage } from '../../scripts/check-pages.ts';
import { root } from '../../scripts/root.ts';
import { CHECKS } from '../../src/checks/index.ts';

it.each(CHECKS)('$code is worded as docs/checks/$code.md', async (check) => {
  expect(checkPage(check)).toBe(await readFile(`${root}docs/checks/${check.code}.md`, 'utf8'));
});
