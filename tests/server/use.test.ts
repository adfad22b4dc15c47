/** Notes that use others, asked of the client by the server, with the real service. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { JsonRpcClient, type Message } from './json-rpc.ts';

const note = 'file:///ward/note.md';
const formulary = 'file:///ward/formulary.md';
const policy = 'file:///ward/infusion-policy.json';
const BAG = fenced('use ./formulary.md\nmixture bag\n  500 mL gastric');
const good = fenced('mixture gastric\n  1 L sodium chloride 0.9%');
const broken = fenced('mixture gastric\n  1 L sodum chloride 0.9%');
const asked = ({ method }: Message) => method === 'meniscus/usedNote';

/** A client whose folder holds `texts`, by URI. */
async function withNotes(texts: Map<string, string>, options: object = { usedNotes: true, policy: true }) {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), createNoteService());
  const client = new JsonRpcClient(toServer, fromServer);
  await client.initialize({}, options);
  client.answer('meniscus/policy', () => (texts.has(policy) ? { uri: policy, text: texts.get(policy) } : null));
  client.answer('meniscus/usedNote', (params) => {
    const { from, path } = params as { from: string; path: string };
    const uri = new URL(path, from).href;
    const text = texts.get(uri);
    return text === undefined ? { why: 'none' } : { uri, text };
  });
  return client;
}

const codes = (client: JsonRpcClient, uri = note) =>
  client.allPublished(uri).map(({ diagnostics }) => diagnostics.map(({ code }) => code).join());
const times = (client: JsonRpcClient, count: number, uri = note) =>
  client.until(() => client.allPublished(uri).length >= count);

describe('a used note', () => {
  test('is asked for once, and its fluids are there', async () => {
    const client = await withNotes(new Map([[formulary, good]]));
    client.open(note, BAG);
    await client.published(note, 1);
    client.change(note, 2, `${BAG}\n`);
    await client.published(note, 2);
    expect(codes(client)).toEqual(['', '']);
    expect(client.received.filter(asked).map(({ params }) => params)).toEqual([{ from: note, path: './formulary.md' }]);
    const { result } = await client.hover(note, { line: 3, character: 10 });
    expect(JSON.stringify(result)).toContain('From the note');
  });

  test('is not asked for of a client that does not offer it', async () => {
    const client = await withNotes(new Map([[formulary, good]]), {});
    client.open(note, BAG);
    await client.published(note, 1);
    expect(client.received.filter(asked)).toEqual([]);
    expect(codes(client)).toEqual(['outside-workspace']);
  });

  test.each([
    [null, 'missing-note'],
    [7, 'missing-note'],
    [{ uri: formulary }, 'missing-note'],
    [{ why: 'no such reason' }, 'missing-note'],
    [{ why: 'untrusted' }, 'missing-note'],
    [{ why: 'above' }, 'outside-workspace'],
    [{ why: 'no-workspace' }, 'outside-workspace'],
    [{ why: 'too-large' }, 'over-limit'],
  ])('of which the answer is %j is said', async (answer, code) => {
    const client = await withNotes(new Map());
    client.answer('meniscus/usedNote', () => answer);
    client.open(note, BAG);
    await client.published(note, 1);
    expect(codes(client)).toEqual([code]);
  });

  test('that is typed in its editor, closed, or changed on the disk has the notes that use it checked again', async () => {
    const texts = new Map([[formulary, good]]);
    const client = await withNotes(texts);
    client.open(note, BAG);
    await client.published(note, 1);
    client.open(formulary, good);
    await client.published(formulary, 1);
    texts.set(formulary, broken);
    client.change(formulary, 2, broken);
    await times(client, 2);
    texts.set(formulary, good);
    client.notify('textDocument/didClose', { textDocument: { uri: formulary } });
    await times(client, 3);
    texts.set(formulary, broken);
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: formulary, type: 2 }] });
    await times(client, 4);
    expect(codes(client)).toEqual(['', 'incomplete-import', '', 'incomplete-import']);
  });

  test('that comes later is found', async () => {
    const texts = new Map<string, string>();
    const client = await withNotes(texts);
    client.open(note, BAG);
    await client.published(note, 1);
    texts.set(formulary, good);
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: formulary, type: 1 }] });
    await times(client, 2);
    expect(codes(client)).toEqual(['missing-note', '']);
  });

  test('that comes late leaves the findings of before, and holds for the version that is then current', async () => {
    const client = await withNotes(new Map());
    const answers: (() => void)[] = [];
    client.answer(
      'meniscus/usedNote',
      () => new Promise((resolve) => answers.push(() => resolve({ uri: formulary, text: good }))),
    );
    client.open(note, BAG);
    await client.until(asked);
    client.change(note, 2, `${BAG}\n`);
    await new Promise((resolve) => setTimeout(resolve, 300));
    for (const answer of answers) answer();
    await client.published(note, 2);
    await client.hover(note, { line: 0, character: 0 });
    expect(client.allPublished(note).map(({ version }) => version)).toEqual([2]);
  });
});

describe('the formulary of local policy', () => {
  test('is read from the policy’s folder, and what is missing is said in the policy', async () => {
    const text = '{ "formulary": ["./none.md", "./formulary.md"] }';
    const client = await withNotes(
      new Map([
        [policy, text],
        [formulary, good],
      ]),
    );
    client.open(note, fenced('mixture bag\n  500 mL gastric'));
    await client.published(note, 1);
    await times(client, 1, policy);
    expect(codes(client)).toEqual(['']);
    const { diagnostics } = client.allPublished(policy)[0]!;
    expect(diagnostics).toMatchObject([
      { code: 'policy-invalid', range: { start: { line: 0, character: 16 }, end: { line: 0, character: 27 } } },
    ]);
  });
});
