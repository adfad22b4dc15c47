/** Checking on several threads: the same report, and a thread that ends costs one note. */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { check, type Threads } from '../../src/cli/check.ts';
import { Crew } from '../../src/cli/crew.ts';
import { inOrder } from '../../src/cli/in-order.ts';
import { reportOf } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { type BuiltCommand, builtCommand } from './built-command.ts';

let folder = '';
let command: BuiltCommand;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-crew-'));
  command = await builtCommand();
});

afterAll(async () => {
  await command.remove();
  await rm(folder, { recursive: true, force: true });
});

describe('a large folder', () => {
  const NOTES = 700;

  beforeAll(async () => {
    const notes = join(folder, 'notes');
    await mkdir(join(notes, 'ward'), { recursive: true });
    await mkdir(join(notes, '.git'));
    await writeFile(join(notes, 'base.md'), fenced('mixture base "Base"\n  1 L sodium chloride 0.45%'));
    await writeFile(join(notes, 'ward/infusion-policy.json'), '{ "prose": 1, "formulary": ["../base.md"] }');
    for (let index = 0; index < NOTES; index++) {
      const text =
        index % 3 === 0
          ? `use ../base.md\nmixture bag\n  500 mL base\n  claim sodium ${70 + (index % 9)} mmol/L`
          : `mixture bag\n  1 L sodium chloride 0.9%\n  ${index % 200} mL potassium chloride 2 mmol/mL`;
      const note = index % 7 === 0 ? 'No block stands here.\n' : fenced(text);
      const bytes = index === 350 ? Buffer.from([0xff, 0x0a]) : note;
      await writeFile(join(notes, index % 2 ? 'ward' : '', `${String(index).padStart(4, '0')}.md`), bytes);
    }
  });

  it.each(['text', 'json', 'sarif', 'junit', 'github'])('is told in %s as on one thread', async (format) => {
    const before = process.cwd();
    const given = readArguments(['check', '.', '--format', format]);
    if (given.command !== 'check') throw new Error('not read');
    process.chdir(join(folder, 'notes'));
    try {
      const told = async (threads: Threads | null) => {
        let [out, err] = ['', ''];
        const streams = {
          out: { write: (text: string) => (out += text) },
          err: { write: (text: string) => (err += text) },
        };
        return { code: await check(given, streams, threads), out, err };
      };
      const one = await told(null);
      // Three cores, whatever this machine has: two workers.
      expect(await told({ program: pathToFileURL(command.path), cores: 3 })).toEqual(one);
      expect(one.code).toBe(2);
      expect(one.out.length).toBeGreaterThan(1000);
    } finally {
      process.chdir(before);
    }
  });

  it('may be told to a reader that has seen enough', async () => {
    const ran = await command.run('sh', ['-c', 'meniscus check . | head -n 1'], join(folder, 'notes'));
    expect(ran.out.split('\n')).toHaveLength(2);
    expect(ran.err.split('\n').filter((line) => line && !/0350\.md: is not UTF-8/.test(line))).toEqual([]);
  });

  it('that cannot be told is said in one line', async () => {
    const { code, err } = await command.run('sh', ['-c', 'meniscus check base.md >/dev/full'], join(folder, 'notes'));
    expect([code, err]).toEqual([2, 'meniscus: standard output cannot be written (ENOSPC)\n']);
  });
});

describe('what is known of a note', () => {
  it.each(['demo/ward-orders.md', 'demo/bag-shortage.md', 'demo/review.md', 'test-fixtures/shelf.md'])(
    'goes whole from one thread to another: %s',
    async (path) => {
      const report = reportOf(await readFile(fileURLToPath(new URL(`../../${path}`, import.meta.url)), 'utf8'));
      expect(report.mixtures.length + report.orders.length).toBeGreaterThan(0);
      expect(structuredClone(report)).toStrictEqual(report);
    },
  );
});

describe('a worker that ends', () => {
  /** Ends on notes whose text says so, and answers the others. */
  const program = async (name: string, beginning = '') => {
    const path = join(folder, `${name}.mjs`);
    await writeFile(
      path,
      `import { parentPort } from 'node:worker_threads';
${beginning}
parentPort.on('message', ({ path, source }) => {
  if (source === 'exit') process.exit(3);
  if (source === 'throw') throw new Error('no such luck\\nand more');
  if (source === 'grow') { const kept = []; for (;;) kept.push(new Array(1e5).fill(path)); }
  parentPort.postMessage({ refused: [], policy: null, note: { path } });
});`,
    );
    return pathToFileURL(path);
  };
  const outcomes = async (crew: Crew, sources: readonly string[]) => {
    const told: (string | null)[] = [];
    const notes = sources.map((source, index) => ({ path: `${index}.md`, source }));
    for await (const checked of inOrder(notes, 6, (note) => crew.check(note))) {
      told.push(checked && (checked.refused[0] ?? checked.note!.path));
    }
    await crew.close();
    return told;
  };

  it('costs the note that it was on, and another goes on', async () => {
    const crew = new Crew(await program('mortal'), null, 2);
    expect(await outcomes(crew, ['', '', '', 'exit', '', 'throw', '', '', ''])).toEqual([
      '0.md',
      '1.md',
      '2.md',
      '3.md: could not be checked (its worker ended)',
      '4.md',
      '5.md: could not be checked (its worker ended: no such luck)',
      '6.md',
      '7.md',
      '8.md',
    ]);
  });

  it('before its first answer is not replaced, and when none is left its notes are given back', async () => {
    const crew = new Crew(await program('stillborn', "throw new Error('cannot start')"), null, 2);
    expect(await outcomes(crew, ['', '', '', '', ''])).toEqual([
      '0.md: could not be checked (its worker ended: cannot start)',
      '1.md: could not be checked (its worker ended: cannot start)',
      null,
      null,
      null,
    ]);
  });
});
