/** Notes that are not open, asked of the client: their symbols, and their paths behind `use`. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { JsonRpcClient } from './json-rpc.ts';

const note = 'file:///ward/sub/note.md';
const spaced = 'file:///ward/our%20fluids.md';
const other = 'file:///ward/sub/other.md';
const BAG = fenced('mixture bag "A bag"\n  1 L sodium chloride 0.9%');
const USING = fenced('use ');

/** A client whose workspace holds `texts`, by URI. */
async function withNotes(texts: Map<string, string>, { asks = true, folders = ['file:///ward'] } = {}) {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), createNoteService());
  const client = new JsonRpcClient(toServer, fromServer);
  client.answer('meniscus/notes', () => [...texts.keys()]);
  client.answer('meniscus/usedNote', (params) => {
    const { from, path } = params as { from: string; path: string };
    const uri = new URL(path, from).href;
    const text = texts.get(uri);
    return text === undefined ? { why: 'none' } : { uri, text };
  });
  await client.request('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: folders.map((uri) => ({ uri, name: 'ward' })),
    capabilities: {},
    initializationOptions: asks ? { usedNotes: true, notes: true } : {},
  });
  client.notify('initialized', {});
  return client;
}

async function symbols(client: JsonRpcClient, query = '') {
  const { result } = await client.request('workspace/symbol', { query });
  return (result as { name: string; location: { uri: string } }[]).map(({ name, location }) => [name, location.uri]);
}

describe('symbols of the workspace', () => {
  test('are those of open notes and of notes that are not', async () => {
    const client = await withNotes(
      new Map([
        [note, BAG],
        [spaced, fenced('patient adult\n  weight 70 kg\ngive 1 L water to adult as first')],
        [other, 'Prose.'],
      ]),
    );
    client.open(note, fenced('mixture changed\n  1 L water'));
    expect(await symbols(client)).toEqual([
      ['changed', note],
      ['adult', spaced],
      ['first', spaced],
    ]);
    expect(await symbols(client, 'ADU')).toEqual([['adult', spaced]]);
  });

  test('have their title, and the lines that belong to them', async () => {
    const client = await withNotes(new Map([[note, `Prose.\r\n\r\n${BAG.replaceAll('\n', '\r\n')}`]]));
    const { result } = await client.request('workspace/symbol', { query: 'bag' });
    const range = { start: { line: 3, character: 0 }, end: { line: 4, character: 26 } };
    expect(result).toEqual([{ name: 'bag', containerName: 'A bag', kind: 19, location: { uri: note, range } }]);
  });

  test('are read once, and again when a note has changed on the disk', async () => {
    const texts = new Map([[note, BAG]]);
    const client = await withNotes(texts);
    await symbols(client);
    texts.set(note, fenced('mixture new\n  1 L water'));
    expect(await symbols(client)).toEqual([['bag', note]]);
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: note, type: 2 }] });
    expect(await symbols(client)).toEqual([['new', note]]);
    texts.delete(note);
    expect(await symbols(client)).toEqual([]);
  });

  test('end when they are no longer wanted', async () => {
    const client = await withNotes(new Map([[note, BAG]]));
    let answer = (_: readonly string[]): void => {};
    client.answer('meniscus/notes', () => new Promise<readonly string[]>((resolve) => (answer = resolve)));
    client.send({ jsonrpc: '2.0', id: 'asked', method: 'workspace/symbol', params: { query: '' } });
    await client.until(({ method }) => method === 'meniscus/notes');
    client.notify('$/cancelRequest', { id: 'asked' });
    answer([note]);
    const { error, result } = await client.until(({ id, method }) => id === 'asked' && method === undefined);
    expect([error?.code, result]).toEqual([-32800, undefined]);
    expect(client.received.some(({ method }) => method === 'meniscus/usedNote')).toBe(false);
  });

  test('are those of open notes alone for a client that finds none, or answers with nonsense', async () => {
    const client = await withNotes(new Map([[note, BAG]]), { asks: false });
    client.open(other, BAG);
    expect(await symbols(client)).toEqual([['bag', other]]);
    const odd = await withNotes(new Map([[note, BAG]]));
    for (const nonsense of [null, 7, { a: 1 }, [7, null], ['%', 'file:///ward/%ff.md']]) {
      odd.answer('meniscus/notes', () => nonsense);
      expect(await symbols(odd)).toEqual([]);
    }
  });
});

describe('paths behind ‘use’', () => {
  async function paths(client: JsonRpcClient, uri = note): Promise<readonly string[]> {
    client.open(uri, USING);
    const position = { line: 1, character: 4 };
    const { result } = await client.request('textDocument/completion', { textDocument: { uri }, position });
    return (result as { items: { textEdit: { newText: string } }[] }).items.map(({ textEdit }) => textEdit.newText);
  }

  test('are those of the client, nearest first, as they are written from the note', async () => {
    const texts = [
      note,
      spaced,
      other,
      'file:///ward/deep/er/x.markdown',
      'https://else/ward/y.md',
      'file:///ward/a.txt',
    ];
    const client = await withNotes(new Map(texts.map((uri) => [uri, BAG])));
    expect(await paths(client)).toEqual(['./other.md', '"../our fluids.md"', '../deep/er/x.markdown']);
    const asked = client.received.find(({ method }) => method === 'meniscus/notes');
    expect(asked?.params).toEqual({ near: note });
  });

  test('are those of open notes of the same folder of the workspace where the client finds none', async () => {
    const client = await withNotes(new Map(), { asks: false, folders: ['file:///ward', 'file:///other'] });
    for (const uri of [spaced, 'file:///other/z.md', 'file:///warden/y.md', 'untitled:u.md']) client.open(uri, BAG);
    expect(await paths(client)).toEqual(['"../our fluids.md"']);
    expect(await paths(client, 'untitled:v.md')).toEqual([]);
  });
});
