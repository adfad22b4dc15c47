/** The extension in a real VS Code: from inside, in its extension host, and from outside, on the screen. */
import { cp, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import type { Host } from '../../scripts/editor/host.ts';
import { root } from '../../scripts/root.ts';
import type { Editor } from './editors.ts';
import { policyScreenTests, type ScreenTest, screenTests } from './screen.ts';
import { killMark, type Outcome, outcomeMark, timeMark } from './suite/outcome.ts';

/** How long the whole suite may take in the extension host, in milliseconds. */
const suiteLimit = 300_000;

/** How long one thing may take to appear on the screen, in milliseconds. */
const patience = 60_000;

/** Runs all; `report` is called with each outcome as it comes. The extension must have been built. */
export async function runEditorTests(
  editor: Editor,
  browser: Browser,
  report: (outcome: Outcome) => void,
): Promise<void> {
  const home = await mkdtemp(join(tmpdir(), 'meniscus-editor-'));
  const folder = join(home, 'notes');
  await cp(`${root}tests/editor/notes`, folder, { recursive: true });
  try {
    await runInside(editor, browser, { folder, tests: 'index', trusted: true }, report);
    await runInside(editor, browser, { folder, tests: 'restricted', trusted: false }, report);
    await runOutside(editor, browser, { folder, note: 'ward.md', tests: screenTests }, report);
    await runOutside(editor, browser, { folder, note: 'local/rounded.md', tests: policyScreenTests }, report);
  } finally {
    await rm(home, { recursive: true, force: true });
  }
}

interface Inside {
  readonly folder: string;
  /** A module of the suite. */
  readonly tests: string;
  readonly trusted: boolean;
}

/** A suite, in an extension host; its exit code is an outcome of its own. */
async function runInside(
  editor: Editor,
  browser: Browser,
  { folder, tests, trusted }: Inside,
  report: (outcome: Outcome) => void,
): Promise<void> {
  const host = await editor.inside(folder, `${root}tests/editor/suite/${tests}.ts`, trusted);
  const context = await browser.newContext();
  try {
    const code = await exitCode(context, host, folder, report);
    report({
      name: `the extension host of ‘${tests}’ ends with code 0`,
      failure: code === 0 ? null : `it ended with ${code}`,
    });
  } finally {
    await context.close();
    await host.close();
  }
}

async function exitCode(
  context: BrowserContext,
  host: Host,
  folder: string,
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
      for (const part of parts) {
        if (typeof part !== 'string') continue;
        if (part.startsWith(outcomeMark)) report(JSON.parse(part.slice(outcomeMark.length)));
        if (part.startsWith(timeMark)) console.log(part.slice(timeMark.length));
        if (part.startsWith(killMark)) {
          const killed = host.killLanguageServer?.().then(() => writeFile(join(folder, 'killed'), ''));
          killed?.catch((error) => console.error(error));
        }
      }
    };
    Promise.all([page.exposeFunction('codeAutomationLog', log), page.exposeFunction('codeAutomationExit', exit)])
      .then(() => page.goto(host.address))
      .catch(reject);
  });
}

interface Outside {
  readonly folder: string;
  readonly note: string;
  readonly tests: readonly ScreenTest[];
}

/** One window with a note beside its preview; what stands on the screen. */
async function runOutside(
  editor: Editor,
  browser: Browser,
  { folder, note, tests }: Outside,
  report: (outcome: Outcome) => void,
): Promise<void> {
  const host = await editor.outside(folder, note);
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(patience);
    await page.goto(host.address);
    await editor.settle(page);
    for (const { name, run } of tests) {
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
