/**
 * Messages as no client should send them. Expected: Language Server Protocol 3.17, "Base Protocol" and "Lifecycle
 * Messages"; JSON-RPC 2.0, section 5.1 for the codes.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { runs } from '../runs.ts';
import { JsonRpcClient } from '../server/json-rpc.ts';

const program = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const uri = 'file:///ward/note.md';
const misspelt = '```infusion\nmixture bag\n  1 L sodum chloride 0.9%\n```\n';
const mended = misspelt.replace('sodum', 'sodium');

const code = { invalidRequest: -32600, methodNotFound: -32601, invalidParams: -32602, notInitialized: -32002 };

let server: ChildProcess;
let client: JsonRpcClient;
let exit: Promise<number | null>;

beforeEach(() => {
  const child = spawn(process.execPath, [program, 'lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  server = child;
  exit = new Promise((resolve) => child.once('exit', resolve));
  client = new JsonRpcClient(child.stdin, child.stdout);
});

afterEach(() => {
  server.kill('SIGKILL');
});

let versions = 1_000_000;

/** It still reads what stands in a note, and says what is wrong with it. */
async function worksOn(): Promise<void> {
  versions += 2;
  client.open(uri, misspelt, versions);
  expect((await client.published(uri, versions)).diagnostics).toMatchObject([{ code: 'unknown-name' }]);
  client.change(uri, versions + 1, mended);
  expect((await client.published(uri, versions + 1)).diagnostics).toEqual([]);
  expect((await client.hover(uri, { line: 1, character: 9 })).result).not.toBeNull();
  client.notify('textDocument/didClose', { textDocument: { uri } });
}

describe('out of turn', () => {
  test('a request before initialize is refused, a notification is dropped, and initialize works after that', async () => {
    client.open(uri, misspelt);
    expect((await client.hover(uri, { line: 1, character: 9 })).error?.code).toBe(code.notInitialized);
    expect((await client.request('nothing/known')).error?.code).toBe(code.notInitialized);
    expect((await client.request('shutdown')).error?.code).toBe(code.notInitialized);
    await client.initialize();
    expect((await client.hover(uri, { line: 1, character: 9 })).result).toBeNull();
    await worksOn();
  });

  test('exit before initialize ends it with 1', async () => {
    client.notify('exit');
    expect(await exit).toBe(1);
  });

  test('a second initialize is refused', async () => {
    await client.initialize();
    const { error } = await client.request('initialize', { processId: null, rootUri: null, capabilities: {} });
    expect(error?.code).toBe(code.invalidRequest);
    await worksOn();
  });

  test('an initialize without parameters is refused, and a right one taken after it', async () => {
    expect((await client.request('initialize')).error?.code).toBe(code.invalidParams);
    await client.initialize();
    await worksOn();
  });

  test('an initialize whose parameters are of wrong kinds is answered', async () => {
    await client.request('initialize', {
      processId: 'none',
      rootUri: 7,
      workspaceFolders: [null, { uri: 3 }],
      capabilities: { general: { positionEncodings: 'utf-8' }, textDocument: { hover: { contentFormat: {} } } },
      initializationOptions: [],
    });
    client.notify('initialized', {});
    await worksOn();
  });

  test('after shutdown requests are refused and notifications dropped, until exit', async () => {
    await client.initialize();
    client.open(uri, misspelt);
    expect((await client.request('shutdown')).result).toBeNull();
    expect((await client.hover(uri, { line: 1, character: 9 })).error?.code).toBe(code.invalidRequest);
    expect((await client.request('shutdown')).error?.code).toBe(code.invalidRequest);
    client.change(uri, 2, mended);
    client.notify('exit');
    expect(await exit).toBe(0);
  });

  test('a version that comes again, or goes back, does not bring back what was found in another text', async () => {
    await client.initialize();
    client.open(uri, misspelt, 5);
    await client.published(uri, 5);
    for (const [version, text] of [
      [5, mended],
      [3, misspelt],
      [-1, mended],
    ] as const) {
      const before = client.allPublished(uri).length;
      client.change(uri, version, text);
      await client.until(() => client.allPublished(uri).length > before);
      const expected = text === misspelt ? 1 : 0;
      expect(client.allPublished(uri).at(-1)?.diagnostics).toHaveLength(expected);
    }
  });

  test('a note opened twice has the later text; one that is not open can be changed, saved and closed', async () => {
    await client.initialize();
    client.open(uri, mended, 1);
    client.open(uri, misspelt, 2);
    expect((await client.published(uri, 2)).diagnostics).toHaveLength(1);
    client.notify('textDocument/didClose', { textDocument: { uri } });
    client.change(uri, 3, mended);
    client.notify('textDocument/didSave', { textDocument: { uri } });
    client.notify('textDocument/didClose', { textDocument: { uri } });
    await worksOn();
  });
});

describe('what is wrong in itself', () => {
  test('requests that nobody knows, or without what they are about, get the codes of the protocol', async () => {
    await client.initialize();
    expect((await client.request('nothing/known', {})).error?.code).toBe(code.methodNotFound);
    expect((await client.request('$/nothing', {})).error?.code).toBe(code.methodNotFound);
    expect((await client.request('textDocument/hover')).error?.code).toBe(code.invalidParams);
    expect((await client.request('textDocument/hover', [1, 2])).error?.code).toBe(code.invalidParams);
    expect((await client.request('textDocument/diagnostic', { textDocument: 'x' })).error?.code).toBe(
      code.invalidParams,
    );
    await worksOn();
  });

  test.each([Number.MAX_SAFE_INTEGER, 1e300, -1, 0.5, 'x'.repeat(100_000), ''])(
    'an id of any size is given back as it came: %#',
    async (id) => {
      await client.initialize();
      client.send({
        jsonrpc: '2.0',
        id,
        method: 'textDocument/hover',
        params: { textDocument: { uri }, position: {} },
      });
      expect((await client.until((message) => message.id === id)).result).toBeNull();
      await worksOn();
    },
  );

  test('bytes that are no header, and headers without a length, are passed over', async () => {
    await client.initialize();
    for (const junk of [
      'hello\r\n\r\n',
      ': \r\n\r\n',
      'Content-Type: text/plain\r\n\r\n',
      'Content-Length: many\r\n\r\n',
      'Content-Length: -5\r\n\r\n',
      'Content-Length: 99999999999999\r\n\r\n',
      'x'.repeat(100_000),
      'Content-Length: 3\r\n\r\n{{{',
      'Content-Length: 0\r\n\r\n',
      '\0\x01\xff\r\n\r\n',
    ]) {
      server.stdin?.write(junk);
      await worksOn();
    }
  });

  test('a message that comes a byte at a time, or many in one piece, is read', async () => {
    await client.initialize();
    const text = JSON.stringify({ jsonrpc: '2.0', id: 'slow', method: 'nothing/known' });
    for (const byte of Buffer.from(`Content-Length: ${text.length}\r\n\r\n${text}`)) {
      server.stdin?.write(Buffer.of(byte));
      await new Promise((resolve) => setImmediate(resolve));
    }
    expect((await client.until(({ id }) => id === 'slow')).error?.code).toBe(code.methodNotFound);
    await worksOn();
  });
});

const methods = [
  ...['didOpen', 'didChange', 'didClose', 'didSave', 'hover', 'completion', 'codeAction', 'inlayHint', 'diagnostic'],
  ...['definition', 'references', 'documentHighlight', 'documentSymbol', 'foldingRange', 'rename', 'prepareRename'],
  ...['formatting', 'rangeFormatting'],
].map((name) => `textDocument/${name}`);
const others = ['workspace/symbol', 'workspace/didChangeWatchedFiles', 'workspace/didChangeWorkspaceFolders'];
const own = ['meniscus/policyChanged', 'meniscus/updates', 'meniscus/worksheet', 'meniscus/check', 'meniscus/refused'];

const number = fc.oneof(fc.integer(), fc.double(), fc.constantFrom(-1, 0, 1, 2, 3, 1e9, 2 ** 31, 2 ** 53));
const position = fc.record({ line: number, character: number });
const range = fc.record({ start: position, end: position });
const anything = fc.jsonValue({ maxDepth: 2 });
const either = <T>(right: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 3, arbitrary: right }, { weight: 1, arbitrary: anything });
const params = fc.record(
  {
    textDocument: either(
      fc.record({
        uri: either(fc.constantFrom(uri, 'file:///ward/infusion-policy.json', 'untitled:x', '', 'file:///%zz')),
        version: either(number),
        languageId: either(fc.constant('markdown')),
        text: either(fc.constantFrom(misspelt, mended, '')),
      }),
    ),
    position: either(position),
    range: either(range),
    contentChanges: either(fc.array(either(fc.record({ range, text: fc.constantFrom('', 'x', '\n', '\r\n```\n') })))),
    context: either(fc.record({ only: anything, includeDeclaration: anything, triggerCharacter: anything })),
    options: anything,
    newName: either(fc.constant('other')),
    query: anything,
    changes: either(fc.array(either(fc.record({ uri: fc.constant(uri), type: number })))),
    event: either(fc.record({ added: anything, removed: anything })),
    uri: either(fc.constant(uri)),
    path: anything,
    text: anything,
  },
  { requiredKeys: [] },
);
const message = fc.record({
  method: fc.constantFrom(...methods, ...others, ...own),
  asks: fc.boolean(),
  params: either(params),
});

describe('anything', () => {
  test('is survived, every request is answered, and the text of a note that is opened anew is right', async () => {
    await client.initialize();
    let lastId = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(message, { minLength: 20, maxLength: 60 }), async (messages) => {
        client.open(uri, misspelt);
        const asked: string[] = [];
        for (const { method, asks, params: given } of messages) {
          lastId += 1;
          const id = `any-${lastId}`;
          client.send({ jsonrpc: '2.0', ...(asks && { id }), method, params: given });
          if (asks) asked.push(id);
        }
        for (const id of asked) await client.until((answer) => answer.id === id);
        await worksOn();
      }),
      runs(25),
    );
  });
});
