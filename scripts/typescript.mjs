/**
 * Lets Node run the scripts as they are written: `node --import ./scripts/typescript.mjs scripts/NAME.ts`.
 * TypeScript loses its types, JSON becomes a module. Types are checked by `npm test`, not here.
 */
import { readFile } from 'node:fs/promises';
import { register } from 'node:module';
import { fileURLToPath } from 'node:url';
import { isMainThread } from 'node:worker_threads';
import { transform } from 'esbuild';

const loaders = { '.ts': 'ts', '.json': 'json' };

if (isMainThread) register(import.meta.url);

export async function load(url, context, nextLoad) {
  const ending = url.match(/^file:.*(\.\w+)$/)?.[1];
  const loader = loaders[ending];
  if (!loader || url.includes('/node_modules/')) return nextLoad(url, context);
  const text = await readFile(fileURLToPath(url), 'utf8');
  const { code } = await transform(text, {
    loader,
    format: 'esm',
    target: 'node20',
    sourcefile: url,
    sourcemap: 'inline',
  });
  return { format: 'module', source: code, shortCircuit: true };
}
