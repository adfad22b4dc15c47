/** Formatting over the wire, with the service itself. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { JsonRpcClient } from './json-rpc.ts';

const uri = 'untitled:Untitled-1';
const source = `${fenced('mixture a\n1 l water')}${fenced('mixture b\n\n\n  1 L water')}`;

const first = { range: { start: { line: 2, character: 0 }, end: { line: 2, character: 9 } }, newText: '  1 L water' };
const second = { range: { start: { line: 6, character: 0 }, end: { line: 7, character: 0 } }, newText: '' };

function connect(): JsonRpcClient {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), createNoteService());
  return new JsonRpcClient(toServer, fromServer);
}

const options = { tabSize: 8, insertSpaces: false };

describe('formatting', () => {
  test('gives an edit for each line that changes', async () => {
    const client = connect();
    const capabilities = await client.initialize();
    expect(capabilities).toMatchObject({ documentFormattingProvider: true, documentRangeFormattingProvider: true });
    client.open(uri, source);
    const { result } = await client.request('textDocument/formatting', { textDocument: { uri }, options });
    expect(result).toEqual([first, second]);
  });

  test('of a range is that of the blocks that it touches', async () => {
    const client = connect();
    await client.initialize();
    client.open(uri, source);
    const range = { start: { line: 5, character: 2 }, end: { line: 5, character: 2 } };
    const params = { textDocument: { uri }, range, options };
    expect((await client.request('textDocument/rangeFormatting', params)).result).toEqual([second]);
  });

  test('is nothing for a note that is not open, a policy, and over what is no range', async () => {
    const client = connect();
    await client.initialize();
    const policy = 'file:///ward/infusion-policy.json';
    client.open(policy, '{ }');
    for (const other of ['untitled:other', policy]) {
      const { result } = await client.request('textDocument/formatting', { textDocument: { uri: other }, options });
      expect(result).toBeNull();
    }
    client.open(uri, source);
    const params = { textDocument: { uri }, range: { start: 1 }, options };
    expect((await client.request('textDocument/rangeFormatting', params)).result).toBeNull();
  });

  test('is offered for Markdown alone to a client that lets it be said', async () => {
    const client = connect();
    client.answer('client/registerCapability', () => null);
    const later = { dynamicRegistration: true };
    const capabilities = await client.initialize({ textDocument: { formatting: later, rangeFormatting: later } });
    expect(capabilities).not.toHaveProperty('documentFormattingProvider');
    for (const method of ['textDocument/formatting', 'textDocument/rangeFormatting']) {
      const { params } = await client.until(({ params }) => JSON.stringify(params ?? {}).includes(`"${method}"`));
      expect(params).toMatchObject({
        registrations: [{ method, registerOptions: { documentSelector: [{ language: 'markdown' }] } }],
      });
    }
  });
});
