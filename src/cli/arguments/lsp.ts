/** The arguments of `meniscus lsp`. */
import { parsed, type Wrong, wrong } from './parsed.ts';

export interface LspArguments {
  readonly command: 'lsp';
}

const TRANSPORT = 'lsp speaks the language server protocol over standard input and output: meniscus lsp --stdio';

export function readLspArguments(rest: readonly string[]): LspArguments | Wrong {
  // Clients that know the process they run in may say so here as well; the server reads it from the arguments.
  const given = parsed(rest, { stdio: { type: 'boolean' }, clientProcessId: { type: 'string' } });
  const fits = !('reason' in given) && given.values.stdio === true && given.positionals.length === 0;
  return fits ? { command: 'lsp' } : wrong(TRANSPORT);
}
