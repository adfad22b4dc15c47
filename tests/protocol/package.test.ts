/** What the extension's package holds: all that runs and is read, and nothing of the workshop. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { listFiles, PackageManager } from '@vscode/vsce';
import { expect, test } from 'vitest';
import manifest from '../../package.json';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Each file fits one of these. */
const shipped: readonly RegExp[] = [
  /^(package\.json|README\.md|CHANGELOG\.md|LICENSE)$/,
  /^dist\/(cli|server\/node|server\/browser|extension\/node|extension\/browser)\.js$/,
  /^dist\/(preview\.css|licences\.txt)$/,
  /^docs\/([a-z-]+|checks\/([a-z-]+|README)|walkthrough\/[a-z]+)\.md$/,
  /^docs\/pictures\/[a-z-]+\.png$/,
  /^shared\/([a-z-]+\/)?[a-z-]+(\.schema)?\.json$/,
  /^syntaxes\/infusion\.[A-Za-z.-]+\.json$|^syntaxes\/infusion\.tmLanguage\.json$/,
];

test('the package holds what is shipped, and nothing else', async () => {
  const files = await listFiles({ cwd: root, packageManager: PackageManager.None });
  expect(files.filter((file) => !shipped.some((form) => form.test(file)))).toEqual([]);
  for (const form of shipped) expect(files.some((file) => form.test(file))).toBe(true);
  const named = [
    manifest.main,
    manifest.browser,
    manifest.bin.meniscus,
    ...manifest.contributes['markdown.previewStyles'],
  ];
  for (const file of named) expect(files).toContain(file.replace(/^\.\//, ''));
  expect(files.filter((file) => !existsSync(root + file))).toEqual([]);
});
