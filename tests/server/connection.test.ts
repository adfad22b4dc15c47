/** The wiring of connection and note service, with a service that says what it is told to. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import type { Diagnostic, NoteService } from '../../src/service/types.ts';
import { JsonRpcClient } from './json-rpc.ts';

const uri = 'untitled:Untitled-1';

/** Finds every `?` in a note; `onWork` is called while a note is worked out. */
function questionFinder(onWork: (source: string) => void = () => {}): NoteService & { readonly forgotten: string[] } {
  const forgotten: string[] = [];
  return {
    forgotten,
    forget: (gone) => forgotten.push(gone),
    work: (_uri, source) => {
      onWork(source);
      const found = [...source.matchAll(/\?/g)].map(({ index }) => questionAt(index));
      return {
        diagnostics: () => found,
        hover: (offset) => ({ span: { start: 0, end: offset }, markdown: `at ${offset}` }),
        results: ({ start, end }) => [
          { offset: start, text: 'first', tooltip: null },
          { offset: end, text: 'last', tooltip: 'why' },
        ],
      };
    },
  };
}

function questionAt(start: number): Diagnostic {
  return {
    code: 'question',
    severity: 'warning',
    span: { start, end: start + 1 },
    message: 'Asked',
    parts: { read: 'Asked', why: '', mend: '', source: null },
    related: [{ span: { start: 0, end: 1 }, message: 'First here' }],
  };
}

function connect(service: NoteService): JsonRpcClient {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), service);
  return new JsonRpcClient(toServer, fromServer);
}

describe('findings', () => {
  test('are published with their version, code, severity, source and UTF-16 range', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, 'one\n😀 two?', 7);
    const { diagnostics } = await client.published(uri, 7);
    expect(diagnostics).toEqual([
      {
        code: 'question',
        message: 'Asked',
        severity: 2,
        source: 'Meniscus',
        range: { start: { line: 1, character: 6 }, end: { line: 1, character: 7 } },
      },
    ]);
  });

  test('link to their page below the folder that the client names, whether or not it ends in a slash', async () => {
    for (const docsBase of ['file:///pages/', 'file:///pages']) {
      const client = connect(questionFinder());
      await client.initialize({}, { docsBase });
      client.open(uri, '?');
      const { diagnostics } = await client.published(uri, 1);
      expect(diagnostics[0]?.codeDescription).toEqual({ href: 'file:///pages/question.md' });
    }
  });

  test('name the other places only to a client that shows them', async () => {
    const client = connect(questionFinder());
    await client.initialize({ textDocument: { publishDiagnostics: { relatedInformation: true } } });
    client.open(uri, '?');
    const { diagnostics } = await client.published(uri, 1);
    expect(diagnostics[0]?.relatedInformation).toEqual([
      {
        location: { uri, range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } } },
        message: 'First here',
      },
    ]);
  });

  test('of versions that were typed over are never made', async () => {
    const worked: string[] = [];
    const client = connect(questionFinder((source) => worked.push(source)));
    await client.initialize();
    client.open(uri, '?');
    await client.published(uri, 1);
    client.change(uri, 2, '??');
    client.change(uri, 3, '???');
    expect((await client.published(uri, 3)).diagnostics).toHaveLength(3);
    expect(worked).toEqual(['?', '???']);
    expect(client.allPublished(uri).map(({ version }) => version)).toEqual([1, 3]);
  });

  test('that a newer version overtakes while they are made are dropped, and the old ones stay until then', async () => {
    const client: JsonRpcClient = connect(
      questionFinder((source) => {
        if (source === '??') client.change(uri, 3, 'no question');
      }),
    );
    await client.initialize();
    client.open(uri, '?');
    await client.published(uri, 1);
    client.change(uri, 2, '??');
    expect((await client.published(uri, 3)).diagnostics).toEqual([]);
    expect(client.allPublished(uri).map(({ version }) => version)).toEqual([1, 3]);
  });

  test('go when the note is closed, and the service forgets it', async () => {
    const service = questionFinder();
    const client = connect(service);
    await client.initialize();
    client.open(uri, '?');
    await client.published(uri, 1);
    client.notify('textDocument/didClose', { textDocument: { uri } });
    await client.until(({ params }) => params?.uri === uri && (params.diagnostics as unknown[]).length === 0);
    expect(service.forgotten).toEqual([uri]);
  });

  test('stay when the service fails on a later version', async () => {
    const client = connect(
      questionFinder((source) => {
        if (source === 'fail') throw new Error('the service failed');
      }),
    );
    await client.initialize();
    client.open(uri, '?');
    await client.published(uri, 1);
    client.change(uri, 2, 'fail');
    await client.until(
      ({ method, params }) => method === 'window/logMessage' && /failed/.test(String(params?.message)),
    );
    client.change(uri, 3, '??');
    await client.published(uri, 3);
    expect(client.allPublished(uri).map(({ version }) => version)).toEqual([1, 3]);
  });
});

describe('inline results', () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } };

  test('are hints at their offsets, with a tooltip where there is one', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, 'abc');
    const { result } = await client.request('textDocument/inlayHint', { textDocument: { uri }, range });
    expect(result).toEqual([
      { position: range.start, label: 'first', paddingLeft: true },
      { position: range.end, label: 'last', paddingLeft: true, tooltip: 'why' },
    ]);
  });

  test('are asked for again after a change, by a client that can', async () => {
    const client = connect(questionFinder());
    await client.initialize({ workspace: { inlayHint: { refreshSupport: true } } });
    client.open(uri, 'abc');
    await client.until(({ method }) => method === 'workspace/inlayHint/refresh');
  });

  test('are not asked for again of a client that cannot', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, 'abc');
    await client.published(uri, 1);
    await client.hover(uri, range.start);
    expect(client.received.filter(({ method }) => method === 'workspace/inlayHint/refresh')).toEqual([]);
  });
});

describe('hovers', () => {
  test('are Markdown with a range', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, 'ab\r\ncd');
    const { result } = await client.hover(uri, { line: 1, character: 1 });
    expect(result).toEqual({
      contents: { kind: 'markdown', value: 'at 5' },
      range: { start: { line: 0, character: 0 }, end: { line: 1, character: 1 } },
    });
  });

  test('are null over a note that is not open and over what is no place', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, 'abc');
    expect((await client.hover('untitled:other', { line: 0, character: 0 })).result).toBeNull();
    expect((await client.hover(uri, { line: -1, character: 0 })).result).toBeNull();
  });
});
