/** The demo notes as pages of their own, whole, in a browser: what stands in the way of reading them. */
import { readdir } from 'node:fs/promises';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { root } from '../../scripts/root.ts';
import { render } from '../../src/cli/render.ts';
import type { Outcome } from './suite/outcome.ts';

/** How a page is looked at: by its scheme, on a wide or a narrow screen, folded or not. */
const VIEWS = [
  { name: 'light', colorScheme: 'light', width: 1000, unfolded: false },
  { name: 'dark and unfolded, on a narrow screen', colorScheme: 'dark', width: 320, unfolded: true },
] as const;

/** axe over each whole page; nothing serious may be found, and nothing may be wider than the screen. */
export async function runPageTests(browser: Browser, report: (outcome: Outcome) => void): Promise<void> {
  const notes = (await readdir(`${root}demo`)).filter((name) => name.endsWith('.md')).sort();
  for (const note of notes) {
    const source = await pageOfNote(`${root}demo/${note}`);
    for (const { name, colorScheme, width, unfolded } of VIEWS) {
      const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
      await page.setContent(source);
      if (unfolded) await page.evaluate('for (const one of document.querySelectorAll("details")) one.open = true');
      const wrong = [...(await serious(page)), ...(await tooWide(page))];
      report({ name: `the page of ${note} can be read by all: ${name}`, failure: wrong.join('; ') || null });
      await page.close();
    }
  }
}

async function pageOfNote(path: string): Promise<string> {
  let written = '';
  const out = { write: (text: string) => (written += text) };
  let wrong = '';
  const err = { write: (text: string) => (wrong += text) };
  const given = { command: 'render', path, out: null, title: null, figures: null, policy: null } as const;
  if ((await render(given, { out, err })) !== 0) throw new Error(wrong);
  return written;
}

async function serious(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const { violations }: axe.AxeResults = await page.evaluate('axe.run(document)');
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} (${nodes[0]?.html.slice(0, 120)})`);
}

async function tooWide(page: Page): Promise<readonly string[]> {
  const beyond: number = await page.evaluate('document.documentElement.scrollWidth - innerWidth');
  return beyond > 0 ? [`${beyond} pixels wider than the screen`] : [];
}
