/** The language server as a web worker. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { createNoteService } from '../service/index.ts';
import { serve } from './connection.ts';
import { keepingTurns } from './lifecycle.ts';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

serve(
  createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self), keepingTurns()),
  createNoteService(),
);
