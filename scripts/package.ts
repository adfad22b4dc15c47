/** `npm run package`: builds, and leaves the extension as one .vsix file in the project's folder. */
import { createVSIX } from '@vscode/vsce';
import manifest from '../package.json';
import { build } from './build.ts';
import { root } from './root.ts';

await build();
await createVSIX({
  cwd: root,
  packagePath: `${root}${manifest.name}-${manifest.version}.vsix`,
  dependencies: false,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});
