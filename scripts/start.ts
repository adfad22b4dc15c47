/**
 * `npm start`: builds, prints the demo notes as they are checked, and serves them in VS Code in the browser.
 * `npm start -- --code` opens it in the VS Code that is installed instead.
 */
import { build } from './build.ts';
import { startHost } from './editor/host.ts';
import { root } from './root.ts';
import { run, runNode } from './run.ts';

const folder = 'demo';
const note = 'bag-shortage.md';
const notes = [note, 'ward-orders.md', 'lesson.md'];
const firstPort = 8765;

/** In the desktop's own VS Code, the extension from this folder; answers with the exit code of `code`. */
async function openCode(): Promise<number> {
  const program = process.platform === 'win32' ? 'code.cmd' : 'code';
  try {
    return await run(program, [`--extensionDevelopmentPath=${root}`, `${root}${folder}`, `${root}${folder}/${note}`]);
  } catch {
    console.error(
      `The command ${program} was not found. In VS Code, “Shell Command: Install 'code' command in PATH” adds it.`,
    );
    return 1;
  }
}

async function openBrowser(): Promise<void> {
  const host = await startHost({ folder: `${root}${folder}`, note, port: firstPort });
  console.log(
    `\nMeniscus in VS Code: ${host.address}\nThe notes are in ${folder}; changes are saved there. Ctrl-C ends it.`,
  );
  const end = (): void => {
    void host.close().then(() => process.exit(0));
  };
  // More than once: Ctrl-C reaches this process from the terminal, and again from npm.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end);
}

const [option, ...others] = process.argv.slice(2);
if (others.length > 0 || (option !== undefined && option !== '--code')) {
  console.error('npm start takes one option, --code, and nothing else: npm start -- --code');
  process.exit(2);
}

await build();
for (const name of notes) await runNode('dist/cli.js', 'check', `${folder}/${name}`);
if (option === '--code') process.exitCode = await openCode();
else await openBrowser();
