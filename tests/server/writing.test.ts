/** Completion and navigation over the protocol, with the real service. No source: our own design. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { serve } from '../../src/server/connection.ts';
import { createNoteService } from '../../src/service/index.ts';
import { JsonRpcClient } from './json-rpc.ts';

const uri = 'untitled:note.md';
const NOTE =
  '😀\r\n\r\n> ```infusion\r\n> mixture gastric "Replacement"\r\n>   1 L sodium chl\r\n> show gastric sodium\r\n> ```\r\n';
const EVERYTHING = {
  textDocument: {
    completion: { completionItem: { snippetSupport: true } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
  workspace: { workspaceEdit: { documentChanges: true } },
};

async function connect(capabilities: object = EVERYTHING) {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer)), createNoteService());
  const client = new JsonRpcClient(toServer, fromServer);
  const offered = await client.initialize(capabilities);
  client.open(uri, NOTE, 3);
  return { client, offered };
}

const at = (line: number, character: number, of = uri) => ({
  textDocument: { uri: of },
  position: { line, character },
});
const range = (line: number, start: number, end: number) => ({
  start: { line, character: start },
  end: { line, character: end },
});
const header = range(3, 10, 17);
const shown = range(5, 7, 14);

describe('completion', () => {
  test('opens by itself behind a space, a slash, a colon and a backtick', async () => {
    const { offered } = await connect();
    expect(offered.completionProvider).toEqual({ triggerCharacters: [' ', '/', ':', '`'] });
  });

  test('is a list in the order of likelihood, with edits of the words written', async () => {
    const { client } = await connect();
    const { result } = await client.request('textDocument/completion', at(4, 18));
    const { isIncomplete, items } = result as { isIncomplete: boolean; items: Record<string, unknown>[] };
    expect(isIncomplete).toBe(false);
    expect(items.find(({ label }) => label === 'sodium chloride 0.9 %')).toMatchObject({
      filterText: 'sodium chloride 0.9 %',
      detail: 'isotonic',
      documentation: expect.stringContaining('Source: '),
      textEdit: { newText: 'sodium chloride 0.9 %', range: range(4, 8, 18) },
    });
    const keys = items.map(({ sortText }) => sortText);
    expect(keys).toEqual([...keys].sort());
  });

  test('gives snippets only to a client that fills them in', async () => {
    const mixture = async (capabilities: object) => {
      const { client } = await connect(capabilities);
      const { result } = await client.request('textDocument/completion', at(5, 2));
      return (result as { items: { label: string }[] }).items.find(({ label }) => label === 'mixture');
    };
    expect(await mixture(EVERYTHING)).toMatchObject({
      insertTextFormat: 2,
      insertTextMode: 1,
      // biome-ignore lint/suspicious/noTemplateCurlyInString: the syntax of snippets
      textEdit: { newText: 'mixture ${1:name} "${2:Title}"\n>   ${3:amount} ${4:fluid}$0' },
    });
    const plain = await mixture({});
    expect(plain).toMatchObject({ textEdit: { newText: 'mixture' } });
    expect(plain).not.toHaveProperty('insertTextFormat');
  });

  test('knows what was typed', async () => {
    const { client } = await connect();
    const context = { triggerKind: 2, triggerCharacter: ' ' };
    const { result } = await client.request('textDocument/completion', { ...at(5, 2), context });
    expect(result).toEqual({ isIncomplete: false, items: [] });
  });
});

describe('navigation', () => {
  test('goes to where a name is given, and to all its places', async () => {
    const { client } = await connect();
    const { result: definition } = await client.request('textDocument/definition', at(5, 9));
    expect(definition).toEqual([{ uri, range: header }]);
    const ask = async (includeDeclaration: boolean) => {
      const { result } = await client.request('textDocument/references', {
        ...at(3, 10),
        context: { includeDeclaration },
      });
      return (result as { range: object }[]).map((place) => place.range);
    };
    expect(await ask(true)).toEqual([header, shown]);
    expect(await ask(false)).toEqual([shown]);
    const { result: highlights } = await client.request('textDocument/documentHighlight', at(3, 10));
    expect(highlights).toEqual([
      { range: header, kind: 3 },
      { range: shown, kind: 2 },
    ]);
  });

  test('renames in the version that was asked about, and refuses in words', async () => {
    const { client } = await connect();
    const { result: prepared } = await client.request('textDocument/prepareRename', at(5, 9));
    expect(prepared).toEqual({ range: shown, placeholder: 'gastric' });
    const { result } = await client.request('textDocument/rename', { ...at(5, 9), newName: 'stomach' });
    const edits = [header, shown].map((place) => ({ range: place, newText: 'stomach' }));
    expect(result).toEqual({ documentChanges: [{ textDocument: { uri, version: 3 }, edits }] });
    const { error } = await client.request('textDocument/rename', { ...at(5, 9), newName: 'to' });
    expect(error?.message).toBe('‘to’ is a word of the notation itself.');
    const plain = await connect({});
    const { result: changes } = await plain.client.request('textDocument/rename', { ...at(5, 9), newName: 'stomach' });
    expect(changes).toEqual({ changes: { [uri]: edits } });
  });

  test('has an outline, nested where the client takes it, and the same of all open notes', async () => {
    const { client } = await connect();
    const { result } = await client.request('textDocument/documentSymbol', { textDocument: { uri } });
    expect(result).toEqual([
      {
        name: 'gastric',
        detail: 'Replacement',
        kind: 19,
        range: { ...header, ...range(3, 2, 0), end: shownEnd },
        selectionRange: header,
      },
    ]);
    const plain = await connect({});
    const { result: flat } = await plain.client.request('textDocument/documentSymbol', { textDocument: { uri } });
    expect(flat).toMatchObject([{ name: 'gastric', containerName: 'Replacement', kind: 19, location: { uri } }]);
    client.open('untitled:other.md', '```infusion\npatient adult\n```\n');
    const all = async (query: string) => {
      const { result: found } = await client.request('workspace/symbol', { query });
      return (found as { name: string; location: { uri: string } }[]).map(({ name, location }) => [name, location.uri]);
    };
    expect(await all('')).toEqual([
      ['gastric', uri],
      ['adult', 'untitled:other.md'],
    ]);
    expect(await all('REPLACE')).toEqual([['gastric', uri]]);
  });
  const shownEnd = { line: 5, character: 21 };

  test('leads from a link in prose to the line that gives the name', async () => {
    const { client } = await connect();
    client.open('untitled:b.md', 'Of [it](infusion:bag).\n\n```infusion\nmixture bag\n  1 L water\n```\n', 1);
    const { result } = await client.request('textDocument/documentLink', { textDocument: { uri: 'untitled:b.md' } });
    const range = { start: { line: 0, character: 3 }, end: { line: 0, character: 21 } };
    expect(result).toEqual([{ range, target: 'untitled:b.md#L4,9' }]);
  });

  test('folds what belongs together', async () => {
    const { client } = await connect();
    const { result } = await client.request('textDocument/foldingRange', { textDocument: { uri } });
    expect(result).toEqual([{ startLine: 3, endLine: 5 }]);
  });
});

describe('a code action', () => {
  const note = '> ```infusion\r\n> mixture bag\r\n>   1.0 L water\r\n> ```\r\n';
  const acceptance = async (capabilities: object) => {
    const { client } = await connect(capabilities);
    client.open('untitled:a.md', note, 5);
    const { result } = await client.request('textDocument/codeAction', {
      textDocument: { uri: 'untitled:a.md' },
      range: range(2, 4, 4),
      context: { diagnostics: [] },
    });
    return (result as { title: string; edit: object }[]).find(({ title }) => title.startsWith('Accept'))?.edit;
  };
  const line = '>   accept trailing-zero because "';
  const inserted = range(3, 0, 0);

  test('has a place to fill in where the client takes one in an edit', async () => {
    const edit = { range: inserted, snippet: { kind: 'snippet', value: `${line}$1"\r\n$0` } };
    const workspaceEdit = { documentChanges: true, snippetEditSupport: true };
    expect(await acceptance({ workspace: { workspaceEdit } })).toEqual({
      documentChanges: [{ textDocument: { uri: 'untitled:a.md', version: 5 }, edits: [edit] }],
    });
  });

  test('leaves it empty where it does not', async () => {
    const edit = { range: inserted, newText: `${line}"\r\n` };
    expect(await acceptance({})).toEqual({ changes: { 'untitled:a.md': [edit] } });
    expect(await acceptance(EVERYTHING)).toMatchObject({ documentChanges: [{ edits: [edit] }] });
  });

  test('that writes a solved amount is no quick fix, and is found among rewritings', async () => {
    const { client } = await connect();
    const solved =
      '```infusion\nmixture b\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L\n```\n';
    client.open('untitled:b.md', solved);
    const kinds = async (...only: string[]) => {
      const { result } = await client.request('textDocument/codeAction', {
        textDocument: { uri: 'untitled:b.md' },
        range: range(2, 3, 3),
        context: { diagnostics: [], only },
      });
      return (result as { kind: string }[]).map(({ kind }) => kind);
    };
    for (const kind of ['', 'refactor', 'refactor.rewrite']) {
      expect(await kinds(kind)).toEqual(['refactor.rewrite', 'refactor.rewrite']);
    }
    expect(await kinds('quickfix', 'refactor.extract', 'source')).toEqual([]);
  });
});

test.each(['completion', 'definition', 'references', 'documentHighlight', 'prepareRename', 'rename'])(
  '%s is null over a note that is not open and at what is no place',
  async (method) => {
    const { client } = await connect();
    for (const params of [at(0, 0, 'untitled:closed.md'), { ...at(0, 0), position: { line: -1 } }, at(0, 0, '')]) {
      const { result, error } = await client.request(`textDocument/${method}`, {
        ...params,
        newName: 'a',
        context: {},
      });
      expect([result, error]).toEqual([null, undefined]);
    }
  },
);
