/** The language server as a process: over `--stdio`, `--node-ipc`, `--socket` or `--pipe`, as its arguments say. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import { createNoteService } from '../service/index.ts';
import { serve } from './connection.ts';
import { wholeFrames } from './frames.ts';
import { keepingTurns } from './lifecycle.ts';
import { workspaceFiles } from './workspace-files.ts';

/** The findings' pages, where they are shipped beside the server. */
const pages = new URL('../../docs/checks', import.meta.url);

const connection = process.argv.includes('--stdio')
  ? createConnection(process.stdin.pipe(wholeFrames()), process.stdout, keepingTurns())
  : createConnection(keepingTurns());

serve(connection, createNoteService(), {
  ...(existsSync(fileURLToPath(pages)) && { docsBase: pages.href }),
  files: workspaceFiles,
});
