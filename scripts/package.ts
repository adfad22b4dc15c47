/** `npm run package`: builds, and leaves the extension as one .vsix file in the project's folder. */
import { createVSIX } from '@vscode/vsce';
import manifest from '../package.json';
import { build } from './build.ts';
import { isMain, root } from './root.ts';

/** Packs what has been built. */
export function pack(file: string): Promise<void> {
  return createVSIX({
    cwd: root,
    packagePath: file,
    dependencies: false,
    allowMissingRepository: true,
    rewriteRelativeLinks: false,
  });
}

if (isMain(import.meta.url)) {
  await build();
  await pack(`${root}${manifest.name}-${manifest.version}.vsix`);
}
