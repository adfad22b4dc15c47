/** `meniscus lsp --stdio`: the language server in this process, over its standard input and output. */

/**
 * The server is bundled by itself, beside this program. It reads its transport from the arguments, and ends the process
 * as the protocol says.
 */
export async function lsp(): Promise<number> {
  await import(new URL('./server/node.js', import.meta.url).href);
  return 0;
}
