/** VS Code's server on this machine, with our extension from its folder or from a package, and a folder of notes. */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { root } from '../root.ts';
import type { CachedEditor } from './cached-editor.ts';
import { bundleForExtensionHost } from './extension-host.ts';
import type { Host } from './host.ts';

export interface CodeServerOptions {
  readonly folder: string;
  /** The note to open, from the folder on. */
  readonly note?: string;
  /** A TypeScript module with `run(): Promise<void>`, to be run in the extension host. */
  readonly tests?: string;
  /** Whether the window trusts its folder; it does where nothing is said. */
  readonly trusted?: boolean;
  /** A .vsix file that is installed; without it the extension is that of the checkout. */
  readonly package?: string;
}

const execute = promisify(execFile);

/** How long it may take until the server listens, in milliseconds. */
const startLimit = 60_000;

export async function startCodeServer({ node, server }: CachedEditor, options: CodeServerOptions): Promise<Host> {
  const home = await mkdtemp(join(tmpdir(), 'meniscus-code-server-'));
  const common = ['--server-data-dir', join(home, 'data'), '--extensions-dir', join(home, 'extensions')];
  try {
    await prepare(home, options.tests);
    if (options.package) {
      const { stdout, stderr } = await execute(node, [server, ...common, '--install-extension', options.package]);
      if (!stdout.includes('was successfully installed')) throw new Error(`${options.package}: ${stdout}${stderr}`);
    }
    const child = spawn(
      node,
      [
        ...[server, ...common, '--host', '127.0.0.1', '--port', '0', '--without-connection-token'],
        ...['--accept-server-license-terms', '--enable-smoke-test-driver', '--telemetry-level', 'off'],
        ...(options.trusted === false ? [] : ['--disable-workspace-trust']),
      ],
      { stdio: ['ignore', 'pipe', 'pipe'], detached: true },
    );
    const end = (): void => endAll(child);
    process.once('exit', end);
    const port = await portOf(child);
    return {
      address: addressOf(port, home, options),
      killLanguageServer: () => killBelow(child.pid ?? 0, 'dist/server/node.js'),
      async close() {
        process.removeListener('exit', end);
        const ended = new Promise((resolve) => child.once('exit', resolve));
        end();
        await ended;
        await removed(home);
      },
    };
  } catch (error) {
    await removed(home);
    throw error;
  }
}

/** Quiet settings, and the tests as one module. */
async function prepare(home: string, tests: string | undefined): Promise<void> {
  const settings = {
    'workbench.startupEditor': 'none',
    'security.workspace.trust.startupPrompt': 'never',
    'security.workspace.trust.banner': 'never',
    'workbench.tips.enabled': false,
    'editor.minimap.enabled': false,
    'git.enabled': false,
    'chat.disableAIFeatures': true,
    'workbench.secondarySideBar.defaultVisibility': 'hidden',
  };
  await mkdir(join(home, 'data/data/Machine'), { recursive: true });
  await mkdir(join(home, 'extensions'));
  await writeFile(join(home, 'data/data/Machine/settings.json'), JSON.stringify(settings));
  if (tests) await writeFile(join(home, 'tests.js'), await bundleForExtensionHost(tests, 'node'));
}

function addressOf(port: number, home: string, { folder, note, tests, package: from }: CodeServerOptions): string {
  const remote = (path: string): string => `vscode-remote://127.0.0.1:${port}${path}`;
  const payload = [
    ...(from ? [] : [['extensionDevelopmentPath', remote(root.replace(/\/$/, ''))]]),
    ...(tests ? [['extensionTestsPath', remote(join(home, 'tests.js'))]] : []),
    ...(note ? [['openFile', remote(join(folder, note))]] : []),
  ];
  return `http://127.0.0.1:${port}/?${new URLSearchParams({ folder, payload: JSON.stringify(payload) })}`;
}

/** The server says where it listens. */
function portOf(child: ChildProcess): Promise<number> {
  return new Promise((resolve, reject) => {
    let said = '';
    const fail = (): void => {
      endAll(child);
      reject(new Error(`code-server did not start:\n${said}`));
    };
    const limit = setTimeout(fail, startLimit);
    const read = (chunk: Buffer): void => {
      said += chunk;
      const port = /Extension host agent listening on (\d+)/.exec(said)?.[1];
      if (!port) return;
      clearTimeout(limit);
      resolve(Number(port));
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.once('exit', fail);
  });
}

function endAll({ pid }: ChildProcess): void {
  try {
    if (pid) process.kill(-pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

/** Kills what runs `program` below the process `top`. */
async function killBelow(top: number, program: string): Promise<void> {
  const { stdout } = await execute('ps', ['-eo', 'pid=,ppid=,args=']);
  const all = [...stdout.matchAll(/^\s*(\d+)\s+(\d+)\s+(.*)$/gm)];
  const parents = new Map(all.map(([, pid, parent]) => [Number(pid), Number(parent)]));
  const isBelow = (pid: number): boolean => pid === top || (pid > 1 && isBelow(parents.get(pid) ?? 0));
  const found = all.filter(([, pid, , args]) => args?.includes(program) && isBelow(Number(pid)));
  if (found.length === 0) throw new Error(`nothing runs ${program}`);
  for (const [, pid] of found) process.kill(Number(pid), 'SIGKILL');
}

/** What was killed may still write for a moment. */
function removed(home: string): Promise<void> {
  return rm(home, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
}
