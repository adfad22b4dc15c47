/** The command `meniscus`. */
import packageJson from '../../package.json' with { type: 'json' };
import { readArguments, USAGE } from './arguments.ts';
import { check } from './check.ts';
import { exportCommand } from './export.ts';
import { format } from './format.ts';
import { render } from './render.ts';
import { update } from './update.ts';
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
      return check(given, { out: process.stdout, err: process.stderr });
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
  }
}

// A reader that has seen enough closes the pipe (`| head`): nothing is wrong then.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});

main().then((code) => {
  process.exitCode = code;
});
