/**
 * Bundles what is shipped: the command line, and the extension and its server, each for Node and for the browser.
 * VS Code loads both of the extension's mains as CommonJS; package.json names no module type, so `.js` is CommonJS.
 */
import { rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { type BuildOptions, build as bundle } from 'esbuild';
import { PREVIEW_STYLE } from '../src/preview/style.ts';
import { bundledLicences } from './licences.ts';
import { isMain, root } from './root.ts';

/** The modules of a package before its other builds: some of those look for their parts only when they run. */
const node: BuildOptions = { platform: 'node', target: 'node20', format: 'cjs', mainFields: ['module', 'main'] };
/** For modules that ask for their own address, which a CommonJS file has under another name. */
const addressed = {
  define: { 'import.meta.url': 'ownAddress' },
  banner: { js: "const ownAddress = require('node:url').pathToFileURL(__filename).href;" },
};
/** Both browser builds run in a worker; some packages have another file for that, without a document to lean on. */
const browser: BuildOptions = { platform: 'browser', target: 'es2022', conditions: ['worker', 'module'] };

const command: BuildOptions = {
  ...node,
  ...addressed,
  entryPoints: { cli: 'src/cli/main.ts' },
  banner: { js: `#!/usr/bin/env node\n${addressed.banner.js}` },
};

const targets: BuildOptions[] = [
  command,
  { ...node, ...addressed, entryPoints: { 'server/node': 'src/server/node.ts' } },
  { ...node, entryPoints: { 'extension/node': 'src/extension/node.ts' }, external: ['vscode'] },
  { ...browser, entryPoints: { 'server/browser': 'src/server/browser.ts' }, format: 'iife' },
  { ...browser, entryPoints: { 'extension/browser': 'src/extension/browser.ts' }, external: ['vscode'], format: 'cjs' },
];

/** The command alone, as `cli.js` in the folder. */
export async function buildCommand(outdir: string): Promise<void> {
  await bundle({ absWorkingDir: root, bundle: true, logLevel: 'warning', ...command, outdir });
}

/** `folder`: from the project's folder on, or absolute. */
export async function build(folder = 'dist'): Promise<void> {
  const out = resolve(root, folder);
  await rm(out, { recursive: true, force: true });
  const shared: BuildOptions = { absWorkingDir: root, outdir: out, bundle: true, minify: true, metafile: true };
  const results = await Promise.all(targets.map((target) => bundle({ ...shared, ...target, logLevel: 'warning' })));
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile?.inputs ?? {}));
  await writeFile(join(out, 'preview.css'), PREVIEW_STYLE);
  await writeFile(join(out, 'licences.txt'), await bundledLicences(inputs));
}

if (isMain(import.meta.url)) await build();
