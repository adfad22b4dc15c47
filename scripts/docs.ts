/** Writes the generated parts of the documentation: `npm run docs`. A test holds the files to what this gives. */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { generatedDocs } from './generated-docs.ts';
import { root } from './root.ts';

for (const [path, text] of await generatedDocs()) {
  await mkdir(dirname(root + path), { recursive: true });
  await writeFile(root + path, text);
}
