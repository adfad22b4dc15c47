/** Worksheets and the check of notes that are not open, over the wire. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { JsonRpcClient } from './json-rpc.ts';

const uri = 'file:///ward/notes/a%20note.md';
const path = 'notes/a note.md';
const note = fenced('mixture bag "A bag"\n  1 L sodium chloride 0.9%\nmixture broken\n  1 L sodum chloride 0.9%');

function connect(): JsonRpcClient {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  const connection = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer));
  serve(connection, createNoteService());
  return new JsonRpcClient(toServer, fromServer);
}

describe('meniscus/worksheet', () => {
  test('answers with the sheet of the mixture at the position, its note and its policy', async () => {
    const client = connect();
    client.answer('meniscus/policy', () => ({ uri: 'file:///ward/infusion-policy.json', text: '{}' }));
    await client.initialize({}, { policy: true });
    client.open(uri, note);
    const { result } = await client.request('meniscus/worksheet', { uri, path, position: { line: 2, character: 0 } });
    const { markdown } = result as { markdown: string };
    expect(markdown).toMatch(/^# Worksheet: A bag\n/);
    expect(markdown).toMatch(/\| Note +\| notes\/a note\\\.md +\|/);
    expect(markdown).toMatch(/\| Local policy +\| infusion-policy\\\.json +\|/);
  });

  test('says why there is none', async () => {
    const client = connect();
    await client.initialize();
    client.open(uri, note);
    const at = (line: number) => client.request('meniscus/worksheet', { uri, path, position: { line, character: 0 } });
    expect((await at(4)).result).toMatchObject({ reason: expect.stringContaining('‘broken’ has no worksheet') });
    expect((await at(0)).result).toMatchObject({ reason: expect.stringContaining('no mixture at the cursor') });
  });

  test.each([
    undefined,
    {},
    { uri: 'file:///other.md', position: { line: 0, character: 0 } },
    { uri: 7, position: { line: 0, character: 0 } },
    { uri, position: 'there' },
  ])('answers %j with null', async (params) => {
    const client = connect();
    await client.initialize();
    client.open(uri, note);
    const { result, error } = await client.request('meniscus/worksheet', params);
    expect([result, error]).toEqual([null, undefined]);
  });
});

describe('meniscus/check', () => {
  test('publishes the findings of a note that is not open, and takes them back', async () => {
    const client = connect();
    await client.initialize();
    expect((await client.request('meniscus/check', { uri, text: note })).result).toBe(1);
    expect(client.allPublished(uri).at(-1)?.diagnostics).toMatchObject([{ code: 'unknown-name' }]);
    expect((await client.request('meniscus/check', { uri, text: null })).result).toBe(0);
    expect(client.allPublished(uri).at(-1)?.diagnostics).toEqual([]);
  });

  test('works it out under its policy', async () => {
    const client = connect();
    client.answer('meniscus/policy', () => ({
      uri: 'file:///ward/infusion-policy.json',
      text: '{ "severities": { "volume-added": "off" } }',
    }));
    await client.initialize({}, { policy: true });
    const added = fenced('mixture bag\n  1 L sodium chloride 0.9%\n  200 mL water');
    expect((await client.request('meniscus/check', { uri, text: added })).result).toBe(0);
  });

  test('leaves an open note to itself', async () => {
    const client = connect();
    await client.initialize();
    client.open(uri, note);
    await client.published(uri, 1);
    expect((await client.request('meniscus/check', { uri, text: '' })).result).toBeNull();
    expect(client.allPublished(uri)).toHaveLength(1);
  });

  test.each([undefined, {}, { uri }, { uri: 1, text: '' }, { uri, text: 7 }])(
    'answers %j with null',
    async (params) => {
      const client = connect();
      await client.initialize();
      const { result, error } = await client.request('meniscus/check', params);
      expect([result, error]).toEqual([null, undefined]);
    },
  );
});
