/** The request for what brings a note up to date, with the real service. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { updatesRequest } from '../../src/server/updates.ts';
import { createNoteService } from '../../src/service/index.ts';
import { JsonRpcClient } from './json-rpc.ts';

const uri = 'untitled:Untitled-1';
const note = '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\n😀 [140 mmol/L](infusion:bag/sodium)\n';

function connect(): JsonRpcClient {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), createNoteService());
  return new JsonRpcClient(toServer, fromServer);
}

describe('updates', () => {
  test('are edits of the version that they were made for', async () => {
    const client = connect();
    await client.initialize();
    client.open(uri, note, 3);
    const { result } = await client.request(updatesRequest, { uri });
    expect(result).toEqual({
      version: 3,
      edits: [{ range: { start: { line: 5, character: 4 }, end: { line: 5, character: 7 } }, newText: '154' }],
    });
  });

  test('of a note that is not open, or of none, are null', async () => {
    const client = connect();
    await client.initialize();
    for (const params of [{ uri: 'file:///none.md' }, { uri: 7 }, {}]) {
      const { result } = await client.request(updatesRequest, params);
      expect(result).toBeNull();
    }
  });
});
