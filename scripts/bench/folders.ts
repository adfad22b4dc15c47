/** Whole folders on the command line, beside two general-purpose checkers of Markdown and beside reading alone. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type Finding, medians, milliseconds, quietly, ratio } from './measure.ts';
import { note, withFolder } from './notes.ts';

const CLI = 'dist/cli.js';

export async function folders(): Promise<readonly Finding[]> {
  return [...(await besideCheckers()), ...(await besideReading())];
}

async function besideCheckers(): Promise<readonly Finding[]> {
  const times = await withFolder(
    1000,
    (serial) => note(serial, 5500, 3),
    async (folder) => {
      // Long lines and repeated headings are how these notes are made; reporting each of them would be held against the peer.
      await writeFile(join(folder, '.markdownlint.json'), JSON.stringify({ MD013: false, MD024: false }));
      return medians(
        {
          meniscus: () => quietly(CLI, ['check', '.'], folder),
          markdownlint: () =>
            quietly('node_modules/markdownlint-cli2/markdownlint-cli2-bin.mjs', ['**/*.md'], folder, [0, 1]),
          remark: () => quietly('node_modules/remark-cli/cli.js', ['.', '--quiet', '--no-stdout'], folder),
        },
        { runs: 5 },
      );
    },
  );
  const faster = Math.min(times.markdownlint, times.remark);
  return [
    milliseconds('(a) `meniscus check`, 1,000 notes of 5.5 kB with three blocks each', times.meniscus),
    milliseconds('(a) `markdownlint-cli2` on the same', times.markdownlint),
    milliseconds('(a) `remark-cli` on the same', times.remark),
    ratio('(a) against the faster of the two', times.meniscus / faster, { atMost: 0.25 }),
  ];
}

async function besideReading(): Promise<readonly Finding[]> {
  const times = await withFolder(
    10_000,
    (serial) => note(serial, 5500, 0),
    (folder) =>
      medians(
        {
          meniscus: () => quietly(CLI, ['check', '.'], folder),
          reading: () => quietly('scripts/bench/read-folder.mjs', [], folder),
        },
        { runs: 5 },
      ),
  );
  return [
    milliseconds('(b) `meniscus check`, 10,000 notes without blocks', times.meniscus),
    milliseconds('(b) reading them', times.reading),
    ratio('(b) checking against reading', times.meniscus / times.reading, { atMost: 2 }),
  ];
}
