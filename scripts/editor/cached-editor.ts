/**
 * VS Code's server for the Node build of the extension, as the package code-server carries it, in a cache outside the
 * checkout: it is large, wants Node 24 and compiles native modules (python3, make, g++ and Kerberos' headers).
 */
import { access, mkdir, mkdtemp, rename, rm } from 'node:fs/promises';
import { homedir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { run } from '../run.ts';

const version = '4.139.1';
const cache = join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'meniscus-editors');

export interface CachedEditor {
  /** The program of Node 24. */
  readonly node: string;
  /** What Node is started with. */
  readonly server: string;
  readonly description: string;
}

/** The editor, which is installed first if it is not there; or why it is not. */
export async function cachedEditor(): Promise<CachedEditor | { readonly reason: string }> {
  try {
    await mkdir(cache, { recursive: true });
    const nodeHome = await installed('node-24', 'node@24', 'node_modules/node/bin/node', process.env);
    const node = join(nodeHome, 'node_modules/node/bin/node');
    const program = 'node_modules/code-server/lib/vscode/out/server-main.js';
    const home = await installed(`code-server-${version}`, `code-server@${version}`, program, await under(node));
    return { node, server: join(home, program), description: `code-server ${version} in ${cache}` };
  } catch (error) {
    return { reason: error instanceof Error ? error.message : String(error) };
  }
}

/** Installs a package into a folder of the cache: whole, or not at all. */
async function installed(folder: string, name: string, file: string, env: NodeJS.ProcessEnv): Promise<string> {
  const home = join(cache, folder);
  if (await isThere(join(home, file))) return home;
  console.log(`Installing ${name} into ${home}; it stays there.`);
  const partial = await mkdtemp(join(cache, `${folder}-`));
  try {
    const code = await run('npm', ['install', '--prefix', partial, '--no-audit', '--no-fund', name], env);
    if (code !== 0 || !(await isThere(join(partial, file)))) throw new Error(`npm could not install ${name}`);
    // Another run may have been faster.
    await rename(partial, home).catch(async (error) => {
      if (!(await isThere(join(home, file)))) throw error;
    });
    return home;
  } finally {
    await rm(partial, { recursive: true, force: true });
  }
}

/** npm and all it starts run under that Node, and native modules are compiled with the headers that come with it. */
async function under(node: string): Promise<NodeJS.ProcessEnv> {
  const env = { ...process.env, PATH: [dirname(node), process.env.PATH].join(delimiter) };
  // The npm that runs this script has told which Node it runs under itself, and installing would believe it.
  for (const told of ['npm_config_user_agent', 'npm_node_execpath', 'NODE']) delete (env as NodeJS.ProcessEnv)[told];
  const platform = `node-${process.platform}-${process.arch}`;
  const around = [join(dirname(node), '../node_modules', platform), join(dirname(node), '../..', platform)];
  for (const home of around) {
    if (await isThere(join(home, 'include/node'))) return { ...env, npm_config_nodedir: home };
  }
  return env;
}

function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
