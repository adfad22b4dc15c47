/** `npm test`: everything, in order, and at the end how much of it passed. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { type Editor, nodeEditor, webEditor } from '../tests/editor/editors.ts';
import { runPageTests } from '../tests/editor/pages.ts';
import { runEditorTests } from '../tests/editor/run.ts';
import type { Outcome } from '../tests/editor/suite/outcome.ts';
import { build } from './build.ts';
import { cachedEditor } from './editor/cached-editor.ts';
import { launchChromium } from './editor/chromium.ts';
import { pack } from './package.ts';
import { runNode } from './run.ts';

interface Tally {
  readonly passed: number;
  readonly failed: number;
}

interface Part {
  readonly name: string;
  readonly needsBuild?: true;
  run(): Promise<Tally>;
}

const parts: readonly Part[] = [
  { name: 'types', run: () => check('node_modules/typescript/bin/tsc', '--project', '.') },
  { name: 'lint and format', run: () => check('node_modules/@biomejs/biome/bin/biome', 'check') },
  { name: 'unused code', run: () => check('node_modules/knip/bin/knip.js') },
  { name: 'unit tests', run: () => vitest('unit') },
  { name: 'build', run: buildAll },
  { name: 'protocol tests', needsBuild: true, run: () => vitest('protocol') },
  { name: 'pages', run: () => inBrowser('THE PAGES WERE NOT LOOKED AT', runPageTests) },
  { name: 'editor, browser', needsBuild: true, run: () => inEditor(webEditor) },
  { name: 'editor, Node', needsBuild: true, run: inNodeEditor },
];

/** A program that says yes or no. */
async function check(program: string, ...parameters: readonly string[]): Promise<Tally> {
  return one((await runNode(program, ...parameters)) === 0);
}

async function buildAll(): Promise<Tally> {
  await build();
  return one(true);
}

function one(passed: boolean): Tally {
  return passed ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/** A skipped test has not passed; a file that cannot even be loaded counts as one failure. */
async function vitest(project: string): Promise<Tally> {
  const folder = await mkdtemp(join(tmpdir(), 'meniscus-tests-'));
  const file = join(folder, 'report.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  try {
    const code = await runNode('node_modules/vitest/vitest.mjs', 'run', '--project', project, ...reporters);
    const { numTotalTests, numPassedTests } = JSON.parse(await readFile(file, 'utf8'));
    const failed = numTotalTests - numPassedTests;
    return { passed: numPassedTests, failed: code === 0 ? failed : Math.max(failed, 1) };
  } catch {
    return one(false);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function inEditor(editor: Editor): Promise<Tally> {
  const run = (browser: Browser, report: Report) => runEditorTests(editor, browser, report);
  return inBrowser('THE EXTENSION WAS NOT TRIED IN VS CODE', run);
}

type Report = (outcome: Outcome) => void;

/** Tests that drive a browser; what cannot be tried is said so that nobody misses it. */
async function inBrowser(loss: string, run: (browser: Browser, report: Report) => Promise<void>): Promise<Tally> {
  const found = await launchChromium();
  if (!('browser' in found)) {
    const cure = 'Install Chromium (on Debian: apt-get install chromium) or name one in CHROMIUM_PATH.';
    return untried(`NO CHROMIUM: ${loss}.`, found.reasons, cure);
  }
  console.log(`Chromium: ${found.description}`);
  const tally = { passed: 0, failed: 0 };
  try {
    await run(found.browser, ({ name, failure }) => {
      tally[failure === null ? 'passed' : 'failed'] += 1;
      console.log(failure === null ? `✓ ${name}` : `✗ ${name}\n  ${failure.replaceAll('\n', '\n  ')}`);
    });
  } catch (error) {
    // What was tried before it counts.
    console.error(error);
    tally.failed += 1;
  } finally {
    await found.browser.close();
  }
  return tally;
}

/** The same suite on the Node build; and the package, installed from its file, in a window of its own. */
async function inNodeEditor(): Promise<Tally> {
  const editor = await cachedEditor();
  if ('reason' in editor) {
    const cure =
      'It is installed once, from the package registry; on Debian it wants libkrb5-dev, python3, make and g++.';
    return untried('NO CODE-SERVER: THE NODE BUILD WAS NOT TRIED IN VS CODE.', [editor.reason], cure);
  }
  console.log(editor.description);
  const folder = await mkdtemp(join(tmpdir(), 'meniscus-package-'));
  try {
    const file = join(folder, 'meniscus.vsix');
    await pack(file);
    return await inEditor(nodeEditor(editor, file));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Fails where tests must be complete, as in continuous integration. */
function untried(what: string, reasons: readonly string[], cure: string): Tally {
  const line = '!'.repeat(80);
  console.error([line, what, ...reasons.map((reason) => `  ${reason}`), cure, line].join('\n'));
  return process.env.CI ? one(false) : { passed: 0, failed: 0 };
}

async function outcomeOf(part: Part): Promise<Tally> {
  if (part.needsBuild && !built) {
    console.error('not run, because the build failed');
    return one(false);
  }
  try {
    return await part.run();
  } catch (error) {
    console.error(error);
    return one(false);
  }
}

const total = { passed: 0, failed: 0 };
const summary: string[] = [];
let built = false;

for (const part of parts) {
  console.log(`\n— ${part.name}`);
  const start = performance.now();
  const { passed, failed } = await outcomeOf(part);
  if (part.run === buildAll) built = failed === 0;
  total.passed += passed;
  total.failed += failed;
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  const counts = `${`${passed} passed`.padStart(13)}${`${failed} failed`.padStart(11)}`;
  summary.push(`${part.name.padEnd(16)}${counts}${seconds.padStart(8)} s`);
}

console.log(`\n${summary.join('\n')}\n`);
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exit(total.failed > 0 ? 1 : 0);
