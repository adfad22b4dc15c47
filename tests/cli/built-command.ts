/** The command as it is shipped, in a folder of its own, for tests that want a process. */
import { spawn } from 'node:child_process';
import { chmod, mkdtemp, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { buildCommand } from '../../scripts/build.ts';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface BuiltCommand {
  /** Its file. */
  readonly path: string;
  /** A program on the path, `meniscus` among them. */
  run(program: string, parameters: readonly string[], cwd: string, env?: Record<string, string>): Promise<Ran>;
  remove(): Promise<void>;
}

export async function builtCommand(): Promise<BuiltCommand> {
  const folder = await mkdtemp(join(tmpdir(), 'meniscus-command-'));
  await buildCommand(folder);
  await chmod(join(folder, 'cli.js'), 0o755);
  await symlink(join(folder, 'cli.js'), join(folder, 'meniscus'));
  const path = `${folder}${delimiter}${process.env.PATH ?? ''}`;
  return {
    path: join(folder, 'cli.js'),
    run: (program, parameters, cwd, env = {}) =>
      new Promise((resolve, reject) => {
        // Nothing of a repository that the tests themselves are run from, such as by a hook.
        const own = Object.entries(process.env).filter(([name]) => !/^GIT_|^(?:NO|FORCE)_COLOR$/.test(name));
        const child = spawn(program, parameters, { cwd, env: { ...Object.fromEntries(own), PATH: path, ...env } });
        let out = '';
        let err = '';
        child.stdout.setEncoding('utf8').on('data', (text) => {
          out += text;
        });
        child.stderr.setEncoding('utf8').on('data', (text) => {
          err += text;
        });
        child.once('error', reject);
        child.once('close', (code) => resolve({ code, out, err }));
        child.stdin.end();
      }),
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}
