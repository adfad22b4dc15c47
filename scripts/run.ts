/** Other programs, run with the terminal as it is. */
import { spawn } from 'node:child_process';
import { root } from './root.ts';

/** Runs a JavaScript program of the project (a path from its folder) under this Node; answers with its exit code. */
export function runNode(program: string, ...parameters: readonly string[]): Promise<number> {
  return run(process.execPath, [program, ...parameters]);
}

/** Runs a program in the project's folder; answers with its exit code, 1 when a signal ended it. */
export function run(program: string, parameters: readonly string[], env = process.env): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, parameters, { cwd: root, env, stdio: 'inherit', shell: isBatchFile(program) });
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

/** Windows starts batch files, such as `code.cmd`, only through a shell. */
function isBatchFile(program: string): boolean {
  return program.endsWith('.cmd');
}
