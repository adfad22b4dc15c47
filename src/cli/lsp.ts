/** `meniscus lsp --stdio`: the language server in this process, over its standard input and output. */
import { parseArgs } from 'node:util';

export interface LspArguments {
  readonly command: 'lsp';
}

const TRANSPORT = 'lsp speaks the language server protocol over standard input and output: meniscus lsp --stdio';

export function readLspArguments(rest: readonly string[]): LspArguments | { readonly reason: string } {
  try {
    const { values } = parseArgs({
      args: [...rest],
      // Clients that know the process they run in may say so here as well; the server reads it from the arguments.
      options: { stdio: { type: 'boolean' }, clientProcessId: { type: 'string' } },
    });
    return values.stdio ? { command: 'lsp' } : { reason: TRANSPORT };
  } catch {
    return { reason: TRANSPORT };
  }
}

/**
 * The server is bundled by itself, beside this program. It reads its transport from the arguments, and ends the process
 * as the protocol says.
 */
export async function lsp(): Promise<number> {
  await import(new URL('./server/node.js', import.meta.url).href);
  return 0;
}
