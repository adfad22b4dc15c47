/** The language server as a process: over `--stdio`, `--node-ipc`, `--socket` or `--pipe`, as its arguments say. */
import { createConnection } from 'vscode-languageserver/node';
import { createNoteService } from '../service/index.ts';
import { serve } from './connection.ts';

serve(createConnection(), createNoteService());
