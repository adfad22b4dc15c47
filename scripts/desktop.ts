/**
 * `npm run test:desktop`: the suite in the desktop's VS Code. VSCODE_PATH names its program; without it one is downloaded.
 * On Linux without a display it wants one, such as that of xvfb-run.
 */
import { cp, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runTests } from '@vscode/test-electron';
import { build } from './build.ts';
import { bundleForExtensionHost } from './editor/extension-host.ts';
import { root } from './root.ts';

await build();
const home = await mkdtemp(join(tmpdir(), 'meniscus-desktop-'));
const program = process.env.VSCODE_PATH;
try {
  await cp(`${root}tests/editor/notes`, join(home, 'notes'), { recursive: true });
  await writeFile(join(home, 'tests.js'), await bundleForExtensionHost(`${root}tests/editor/suite/index.ts`, 'node'));
  process.exitCode = await runTests({
    ...(program && { vscodeExecutablePath: program }),
    extensionDevelopmentPath: root,
    extensionTestsPath: join(home, 'tests.js'),
    launchArgs: [join(home, 'notes'), '--disable-workspace-trust', `--user-data-dir=${join(home, 'user')}`],
  });
} catch (error) {
  console.error(`${error instanceof Error ? error.message : error}`);
  console.error('Name an installed VS Code in VSCODE_PATH where none can be downloaded.');
  process.exitCode = 1;
} finally {
  await rm(home, { recursive: true, force: true, maxRetries: 5 });
}
