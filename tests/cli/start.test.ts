/** What is loaded before anything is known of a note, since each check starts the command anew. */
import { build, type Metafile } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/root.ts';

const MODULES = ['main', 'check', 'text-report'].map((name) => `src/cli/${name}.ts`);
let metafile: Metafile;

beforeAll(async () => {
  const options = { bundle: true, splitting: true, write: false, metafile: true, logLevel: 'silent' } as const;
  const place = { absWorkingDir: root, entryPoints: MODULES, outdir: 'dist', outbase: '.' };
  ({ metafile } = await build({
    ...options,
    ...place,
    format: 'esm',
    platform: 'node',
    mainFields: ['module', 'main'],
  }));
});

/** The modules of a bundle and of those that it imports before it does anything. */
function loadedWith(output: string, seen = new Set<string>()): readonly string[] {
  if (seen.has(output)) return [];
  seen.add(output);
  const { inputs, imports } = metafile.outputs[output]!;
  const first = imports.filter(({ kind, external }) => kind === 'import-statement' && !external);
  return [...Object.keys(inputs), ...first.flatMap(({ path }) => loadedWith(path, seen))];
}

const HEAVY = /^(?:src\/engine|shared)\/|node_modules\/(?:decimal\.js|unified|remark-parse|micromark)\//;

describe('no arithmetic, no reference data and no parser is loaded', () => {
  test.each(MODULES)('with %s', (module) => {
    const loaded = loadedWith(`dist/${module.replace(/\.ts$/, '.js')}`);
    expect(loaded).toContain(module);
    expect(loaded.filter((path) => HEAVY.test(path))).toEqual([]);
  });

  test('unless a note is checked', () => {
    const all = Object.keys(metafile.inputs).filter((path) => HEAVY.test(path));
    expect(all.length).toBeGreaterThan(50);
  });
});
