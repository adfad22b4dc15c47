/**
 * `npm run bench`: how fast the main jobs are, as ratios against peers and goals within one run. Prints a table, and with
 * `-- --write` keeps it in docs/performance.md, with the machine's description. Wants a quiet machine.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { cpus, release, totalmem, type } from 'node:os';
import { conversions } from './bench/conversions.ts';
import { folders } from './bench/folders.ts';
import { growth } from './bench/growth.ts';
import { keystrokes } from './bench/keystrokes.ts';
import type { Finding } from './bench/measure.ts';
import { memory } from './bench/memory.ts';
import { build } from './build.ts';
import { root } from './root.ts';

const PAGE = `${root}docs/performance.md`;
const PARTS = [folders, keystrokes, growth, conversions, memory];

await build();
const findings: Finding[] = [];
for (const part of PARTS) findings.push(...(await part()));

const cores = cpus();
const machine = `${cores.length} cores (${cores[0]?.model.trim()}), ${Math.round(totalmem() / 2 ** 30)} GB of memory, ${type()} ${release()}, Node ${process.versions.node}`;
const table = [
  '| what | measured | goal | |',
  '| --- | ---: | --- | --- |',
  ...findings.map(({ what, measured, goal, reached }) => `| ${what} | ${measured} | ${goal} | ${wordOf(reached)} |`),
].join('\n');

console.log(`${machine}\n\n${table}`);
if (process.argv.includes('--json')) console.log(JSON.stringify({ machine, findings }, null, 2));
if (process.argv.includes('--write')) {
  const page = await readFile(PAGE, 'utf8');
  const written = `<!-- measured -->\n\nMeasured on ${machine}.\n\n${table}\n\n<!-- /measured -->`;
  await writeFile(
    PAGE,
    page.replace(/<!-- measured -->[\s\S]*<!-- \/measured -->/, () => written),
  );
}

function wordOf(reached: boolean | null): string {
  return reached === null ? '' : reached ? 'reached' : 'not reached';
}
