/** The command `meniscus`, and the program of its workers. */
import { availableParallelism } from 'node:os';
import { isMainThread } from 'node:worker_threads';
import packageJson from '../../package.json' with { type: 'json' };
import { readArguments, USAGE } from './arguments/index.ts';

const streams = { out: process.stdout, err: process.stderr };

/** Each command loads what it needs, and no more: a command is started anew for every check. */
async function main(): Promise<number> {
  const given = readArguments(process.argv.slice(2));
  switch (given.command) {
    case 'help':
      process.stdout.write(USAGE);
      return 0;
    case 'version':
      process.stdout.write(`${packageJson.version}\n`);
      return 0;
    case 'wrong':
      process.stderr.write(`meniscus: ${given.reason}\n`);
      return 2;
    case 'check': {
      const threads = { program: new URL(import.meta.url), cores: availableParallelism() };
      return (await import('./check.ts')).check(given, streams, threads);
    }
    case 'format':
      return (await import('./format.ts')).format(given, streams);
    case 'worksheet':
      return (await import('./worksheet.ts')).worksheet(given, streams);
    case 'render':
      return (await import('./render.ts')).render(given, streams);
    case 'export':
      return (await import('./export.ts')).exportCommand(given, streams);
    case 'update':
      return (await import('./update.ts')).update(given, streams);
    case 'lsp':
      return (await import('./lsp.ts')).lsp();
  }
}

/** A reader that has seen enough closes the pipe (`| head`): nothing is wrong then. */
function endOn(stream: NodeJS.WriteStream, name: string): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit();
    if (stream !== process.stderr) process.stderr.write(`meniscus: ${name} cannot be written (${error.code})\n`);
    process.exit(2);
  });
}

if (isMainThread) {
  endOn(process.stdout, 'standard output');
  endOn(process.stderr, 'standard error');
  main().then(
    (code) => {
      process.exitCode = code;
    },
    (error: Error) => {
      process.stderr.write(`meniscus: ended by a fault of its own, please report it: ${error.stack ?? error}\n`);
      process.exitCode = 2;
    },
  );
} else {
  import('./worker.ts').then(({ work }) => work());
}
