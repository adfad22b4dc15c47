/** What one measurement is: medians of one run, held against each other or against a goal. */
import { spawn } from 'node:child_process';
import { Bench } from 'tinybench';
import { root } from '../root.ts';

/** One line of the table. */
export interface Finding {
  /** What was measured, in a few words. */
  readonly what: string;
  readonly measured: string;
  /** Empty where there is none. */
  readonly goal: string;
  /** Null where there is no goal. */
  readonly reached: boolean | null;
}

/** A ratio, as the table prints it, and whether it is at most (or at least) the goal. */
export function ratio(
  what: string,
  value: number,
  goal: { readonly atMost: number } | { readonly atLeast: number },
): Finding {
  const most = 'atMost' in goal;
  const limit = most ? goal.atMost : goal.atLeast;
  return {
    what,
    measured: `${value.toFixed(2)} times`,
    goal: `${most ? 'at most' : 'at least'} ${limit} times`,
    reached: most ? value <= limit : value >= limit,
  };
}

export function milliseconds(what: string, value: number, atMost: number | null = null): Finding {
  return {
    what,
    measured: `${value.toFixed(value < 10 ? 2 : 0)} ms`,
    goal: atMost === null ? '' : `at most ${atMost} ms`,
    reached: atMost === null ? null : value <= atMost,
  };
}

export function plain(what: string, measured: string): Finding {
  return { what, measured, goal: '', reached: null };
}

/** Median milliseconds of each task, one after the other, each warmed up and run so many times. */
export async function medians<K extends string>(
  tasks: Readonly<Record<K, () => void | Promise<void>>>,
  { runs, warmUp = 1 }: { readonly runs: number; readonly warmUp?: number },
): Promise<Readonly<Record<K, number>>> {
  const bench = new Bench({ iterations: runs, time: 0, warmupIterations: warmUp, warmupTime: 0, throws: true });
  for (const [name, task] of Object.entries<() => void | Promise<void>>(tasks)) bench.add(name, task);
  const done = await bench.run();
  return Object.fromEntries(
    done.map(({ name, result }) => {
      if (!('latency' in result)) throw new Error(`${name} was not measured`);
      return [name, result.latency.p50];
    }),
  ) as Record<K, number>;
}

/** The value below which 95 of 100 lie. */
export function percentile95(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.ceil(sorted.length * 0.95) - 1] ?? Number.NaN;
}

/** Runs a program of the project with its output thrown away; any of `exits` is taken as having worked. */
export function quietly(
  program: string,
  parameters: readonly string[],
  cwd: string,
  exits: readonly number[] = [0],
): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [`${root}${program}`, ...parameters], {
      cwd,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    let said = '';
    child.stderr.on('data', (data) => {
      said = `${said}${data}`.slice(-2000);
    });
    child.once('error', reject);
    child.once('close', (code) => {
      if (exits.includes(code ?? -1)) resolve();
      else reject(new Error(`${program} ended with ${code}: ${said}`));
    });
  });
}
