/** The command `meniscus`, and the program of its workers. */
import { availableParallelism } from 'node:os';
import { isMainThread } from 'node:worker_threads';
import packageJson from '../../package.json' with { type: 'json' };
import { readArguments, USAGE } from './arguments.ts';
import { check } from './check.ts';
import { exportCommand } from './export.ts';
import { format } from './format.ts';
import { lsp } from './lsp.ts';
import { render } from './render.ts';
import { update } from './update.ts';
import { work } from './worker.ts';
import { worksheet } from './worksheet.ts';

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
    case 'check':
      return check(
        given,
        { out: process.stdout, err: process.stderr },
        {
          program: new URL(import.meta.url),
          cores: availableParallelism(),
        },
      );
    case 'format':
      return format(given, { out: process.stdout, err: process.stderr });
    case 'worksheet':
      return worksheet(given, { out: process.stdout, err: process.stderr });
    case 'render':
      return render(given, { out: process.stdout, err: process.stderr });
    case 'export':
      return exportCommand(given, { out: process.stdout, err: process.stderr });
    case 'update':
      return update(given, { out: process.stdout, err: process.stderr });
    case 'lsp':
      return lsp();
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
  work();
}
