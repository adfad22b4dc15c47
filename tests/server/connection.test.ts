/** The wiring of connection and note service, with a service that says what it is told to. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import type { Diagnostic, NoteService, WorkedNote } from '../../src/service/types.ts';
import { JsonRpcClient, type Message } from './json-rpc.ts';

const uri = 'untitled:Untitled-1';

const noWorksheet: WorkedNote['worksheet'] = () => ({ ok: false, withheld: false, reason: 'no worksheet' });

const card = (words: string) => ({ markdown: words, plain: { markdown: words, text: words } });

/** Finds every `?` in a note; `onWork` is called while a note is worked out. */
function questionFinder(onWork: (source: string) => void = () => {}): NoteService & { readonly forgotten: string[] } {
  const forgotten: string[] = [];
  return {
    forgotten,
    forget: (gone) => forgotten.push(gone),
    uses: () => ({ shared: [], alone: [] }),
    prepare: async () => true,
    work: (_uri, source) => {
      onWork(source);
      const found = [...source.matchAll(/\?/g)].map(({ index }) => questionAt(index));
      return {
        diagnostics: () => found,
        fixes: ({ start, end }) =>
          found
            .filter(({ span }) => span.start <= end && span.end >= start)
            .map((finding) => ({
              title: 'Answer',
              finding,
              edits: [{ span: finding.span, text: '.' }],
              snippet: null,
              changesNumber: false,
              preferred: true,
            })),
        hover: (offset) => ({ span: { start: 0, end: offset }, ...card(`at ${offset}`) }),
        results: ({ start, end }) => [
          { offset: start, text: 'first', tooltip: null },
          { offset: end, text: 'last', tooltip: 'why' },
        ],
        formatting: (span) => (span ? [{ span, text: 'range' }] : [{ span: { start: 0, end: 1 }, text: 'all' }]),
        ...nowhere,
        worksheet: noWorksheet,
        updates: () => found.map(({ span }) => ({ span, text: '.' })),
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

const nowhere: Pick<WorkedNote, 'complete' | 'navigation' | 'offers'> = {
  offers: () => [],
  complete: () => ({ items: [], cut: false, wantsPaths: false }),
  navigation: { name: () => null, rename: () => null, links: () => [], symbols: () => [], folds: () => [] },
};

/** Says what claims of the policy that a note is worked out under may be off by. */
const toleranceTeller: NoteService = {
  forget: () => {},
  uses: () => ({ shared: [], alone: [] }),
  prepare: async () => true,
  work: (_uri, _source, policy) => ({
    diagnostics: () => [{ ...questionAt(0), message: `${policy?.claimTolerance} %` }],
    fixes: () => [],
    hover: () => ({ span: { start: 0, end: 1 }, ...card(`${policy?.claimTolerance} %`) }),
    results: () => [],
    formatting: () => [],
    ...nowhere,
    worksheet: noWorksheet,
    updates: () => [],
  }),
};

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

describe('fixes', () => {
  const asked = (only?: readonly string[]) => ({
    textDocument: { uri },
    range: { start: { line: 1, character: 0 }, end: { line: 1, character: 3 } },
    context: { diagnostics: [], ...(only && { only }) },
  });
  const place = { start: { line: 1, character: 2 }, end: { line: 1, character: 3 } };

  test('are quick fixes of their finding, edits of the version they were made for', async () => {
    const client = connect(questionFinder());
    const { codeActionProvider } = await client.initialize({ workspace: { workspaceEdit: { documentChanges: true } } });
    expect(codeActionProvider).toEqual({ codeActionKinds: ['quickfix', 'refactor.rewrite'] });
    client.open(uri, 'a?\r\n😀? b?', 7);
    const { result } = await client.request('textDocument/codeAction', asked());
    expect(result).toEqual([
      {
        title: 'Answer',
        kind: 'quickfix',
        isPreferred: true,
        diagnostics: [{ code: 'question', message: 'Asked', severity: 2, source: 'Meniscus', range: place }],
        edit: {
          documentChanges: [{ textDocument: { uri, version: 7 }, edits: [{ range: place, newText: '.' }] }],
        },
      },
    ]);
  });

  test('are plain changes to a client that knows no versions', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, '\n😀?');
    const { result } = await client.request('textDocument/codeAction', asked(['quickfix']));
    expect((result as { edit: object }[])[0]?.edit).toEqual({ changes: { [uri]: [{ range: place, newText: '.' }] } });
  });

  test('are none where others are asked for, over a note that is not open, and over what is no place', async () => {
    const client = connect(questionFinder());
    await client.initialize();
    client.open(uri, '\n😀?');
    const { result: others } = await client.request('textDocument/codeAction', asked(['refactor', 'source.fixAll']));
    expect(others).toEqual([]);
    for (const wrong of [{ textDocument: { uri: 'untitled:other' } }, { range: { start: 1, end: 2 } }]) {
      const { result } = await client.request('textDocument/codeAction', { ...asked(), ...wrong });
      expect(result).toBeNull();
    }
  });
});

describe('local policy', () => {
  const note = 'file:///ward/note.md';
  const policy = 'file:///ward/infusion-policy.json';
  const tolerance = (percent: number) => `{ "claim-tolerance": "${percent} %" }`;
  const asked = ({ method }: Message) => method === 'meniscus/policy';

  /** A client that answers with what `found` gives. */
  async function withPolicy(found: () => unknown): Promise<JsonRpcClient> {
    const client = connect(toleranceTeller);
    await client.initialize({}, { policy: true });
    client.answer('meniscus/policy', found);
    return client;
  }
  const messages = (client: JsonRpcClient, uri = note) =>
    client.allPublished(uri).map(({ diagnostics }) => diagnostics.map(({ message }) => message).join());
  const saying = (uri: string, text: string) => (message: Message) =>
    message.params?.uri === uri && JSON.stringify(message.params.diagnostics ?? []).includes(text);

  test('is asked for by a note, and what it sets holds for findings and hovers', async () => {
    const client = await withPolicy(() => ({ uri: policy, text: tolerance(3) }));
    client.open(note, 'a');
    await client.published(note, 1);
    expect(client.received.filter(asked).map(({ params }) => params)).toEqual([{ uri: note }]);
    expect(messages(client)).toEqual(['3 %']);
    const { result } = await client.hover(note, { line: 0, character: 0 });
    expect((result as { contents: { value: string } }).contents.value).toBe('3 %');
  });

  test('is not asked for of a client that does not offer it', async () => {
    const client = connect(toleranceTeller);
    await client.initialize();
    client.open(note, 'a');
    await client.published(note, 1);
    expect(client.received.filter(asked)).toEqual([]);
    expect(messages(client)).toEqual(['5 %']);
  });

  test.each([null, 7, { uri: policy }, { text: '{}' }])('is the default where the answer is %j', async (answer) => {
    const client = await withPolicy(() => answer);
    client.open(note, 'a');
    await client.published(note, 1);
    expect(messages(client)).toEqual(['5 %']);
  });

  test('that changes on the disk, or of which the client says so, checks open notes again', async () => {
    let percent = 3;
    const client = await withPolicy(() => ({ uri: policy, text: tolerance(percent) }));
    client.open(note, 'a');
    await client.published(note, 1);
    percent = 4;
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: policy, type: 2 }] });
    await client.until(saying(note, '4 %'));
    percent = 6;
    client.notify('meniscus/policyChanged');
    await client.until(saying(note, '6 %'));
    expect(messages(client)).toEqual(['3 %', '4 %', '6 %']);
  });

  test('that is typed in its editor checks open notes again, and has findings of its own', async () => {
    let text = '{}';
    const client = await withPolicy(() => ({ uri: policy, text }));
    client.open(note, 'a');
    await client.published(note, 1);
    client.open(policy, text);
    text = '{ "claim-tolerance": "2 %", "prose": 1 }';
    client.change(policy, 2, text);
    await client.until(saying(note, '2 %'));
    const { diagnostics } = await client.published(policy, 2);
    expect(diagnostics).toMatchObject([
      { code: 'policy-invalid', range: { start: { line: 0, character: 37 }, end: { line: 0, character: 38 } } },
    ]);
    expect((await client.hover(policy, { line: 0, character: 0 })).result).toBeNull();
  });

  test('that is used but not open has findings of its own, taken back when no note uses it', async () => {
    const client = await withPolicy(() => ({ uri: policy, text: '{ "prose": 1 }' }));
    client.open(note, 'a');
    await client.until(saying(policy, 'policy-invalid'));
    client.notify('textDocument/didClose', { textDocument: { uri: note } });
    await client.until((message) => message.params?.uri === policy && (message.params.diagnostics as []).length === 0);
  });

  test('that is found late leaves the findings of before, and holds for the version that is then current', async () => {
    let answers: ((text: string) => void)[] = [];
    const client = await withPolicy(
      () => new Promise((resolve) => answers.push((text) => resolve({ uri: policy, text }))),
    );
    client.open(note, 'a');
    await client.until(asked);
    client.change(note, 2, 'b');
    for (const answer of answers) answer(tolerance(3));
    await client.published(note, 2);
    expect(client.allPublished(note).map(({ version }) => version)).toEqual([2]);
    answers = [];
    client.notify('meniscus/policyChanged');
    await client.until(() => client.received.filter(asked).length === 2);
    expect(messages(client)).toEqual(['3 %']);
    for (const answer of answers) answer(tolerance(4));
    await client.until(saying(note, '4 %'));
  });
});
