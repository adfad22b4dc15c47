/** The licences of the packages inside our bundles: most ask that their notice travels with every copy. */
import { readdir, readFile } from 'node:fs/promises';
import { root } from './root.ts';

/** One text with the name, version and licence of each package that `inputs` (paths from the project's folder) touch. */
export async function bundledLicences(inputs: readonly string[]): Promise<string> {
  const folders = new Set(inputs.flatMap((input) => input.match(/^.*node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0] ?? []));
  const notices = await Promise.all([...folders].sort().map((folder) => notice(`${root}${folder}/`)));
  return ['Meniscus contains the following packages.', ...notices].join(`\n\n${'-'.repeat(80)}\n\n`);
}

async function notice(folder: string): Promise<string> {
  const { name, version, license } = JSON.parse(await readFile(`${folder}package.json`, 'utf8'));
  const file = (await readdir(folder)).find((entry) => /^licen[cs]e/i.test(entry));
  const text = file ? await readFile(`${folder}${file}`, 'utf8') : '';
  return `${name} ${version} (${license})\n\n${text.trim()}`.trim();
}
