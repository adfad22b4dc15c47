/** The extension in the real VS Code: from inside, in its extension host, and from outside, on the screen. */
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import { startHost } from '../../scripts/editor/host.ts';
import { root } from '../../scripts/root.ts';
import { runPageTests } from './pages.ts';
import { screenTests } from './screen.ts';
import { type Outcome, outcomeMark } from './suite/outcome.ts';

/** How long the whole suite may take in the extension host, in milliseconds. */
const suiteLimit = 300_000;

/** How long one thing may take to appear on the screen, in milliseconds. */
const patience = 60_000;

/** Runs all; `report` is called with each outcome as it comes. The extension must have been built. */
export async function runEditorTests(browser: Browser, report: (outcome: Outcome) => void): Promise<void> {
  const home = await mkdtemp(join(tmpdir(), 'meniscus-editor-'));
  const folder = join(home, 'notes');
  await cp(`${root}tests/editor/notes`, folder, { recursive: true });
  try {
    await runPageTests(browser, report);
    await runInside(browser, folder, report);
    await runOutside(browser, folder, report);
  } finally {
    await rm(home, { recursive: true, force: true });
  }
}

/** The suite, in an extension host; its exit code is an outcome of its own. */
async function runInside(browser: Browser, folder: string, report: (outcome: Outcome) => void): Promise<void> {
  const host = await startHost({ folder, tests: `${root}tests/editor/suite/index.ts`, port: 0 });
  const context = await browser.newContext();
  try {
    const code = await exitCode(context, host.address, report);
    report({ name: 'the extension host ends with code 0', failure: code === 0 ? null : `it ended with ${code}` });
  } finally {
    await context.close();
    await host.close();
  }
}

async function exitCode(
  context: BrowserContext,
  address: string,
  report: (outcome: Outcome) => void,
): Promise<number | string> {
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  return new Promise((resolve, reject) => {
    const limit = setTimeout(() => resolve('no code in time'), suiteLimit);
    const exit = (code: number): void => {
      clearTimeout(limit);
      resolve(code);
    };
    const log = (_type: string, parts: readonly unknown[]): void => {
      const line = parts.find((part): part is string => typeof part === 'string' && part.startsWith(outcomeMark));
      if (line) report(JSON.parse(line.slice(outcomeMark.length)));
    };
    Promise.all([page.exposeFunction('codeAutomationLog', log), page.exposeFunction('codeAutomationExit', exit)])
      .then(() => page.goto(address))
      .catch(reject);
  });
}

/** One window with a note that is half right; what stands on the screen. */
async function runOutside(browser: Browser, folder: string, report: (outcome: Outcome) => void): Promise<void> {
  const host = await startHost({ folder, note: 'ward.md', port: 0 });
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(patience);
    await page.goto(host.address);
    for (const { name, run } of screenTests) {
      const failure = await run(page).then(
        () => null,
        (error) => String(error).split('\nBrowser logs:')[0] ?? '',
      );
      report({ name, failure });
    }
  } finally {
    await context.close();
    await host.close();
  }
}
