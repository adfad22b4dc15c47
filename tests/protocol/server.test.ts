/** The built server as a process, spoken to over standard input and output with plain JSON-RPC. */
import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { JsonRpcClient, type Message } from '../server/json-rpc.ts';

const program = fileURLToPath(new URL('../../dist/server/node.js', import.meta.url));
const uri = 'file:///ward/note.md';

/** The potassium line adds 10 mL to 1 L: 1010 mL, by addition alone. */
const good = `# Gastric losses

\`\`\`infusion
mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
\`\`\`
`;
const misspelt = good.replace('sodium chloride', 'sodum chloride');

/** Where \`text\` first stands in \`note\`. */
function positionOf(text: string, note = good): { line: number; character: number } {
  const before = note.slice(0, note.indexOf(text)).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

let server: ChildProcess;
let client: JsonRpcClient;
let exit: Promise<number | null>;

beforeEach(async () => {
  const process_ = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  server = process_;
  exit = new Promise((resolve) => process_.once('exit', resolve));
  client = new JsonRpcClient(process_.stdin, process_.stdout);
});

afterEach(() => {
  server.kill();
});

describe('a note', () => {
  test('is worked out and its findings published, with code and range', async () => {
    await client.initialize({}, { docsBase: 'file:///pages' });
    client.open(uri, misspelt);
    const { diagnostics } = await client.published(uri, 1);
    expect(diagnostics).toHaveLength(1);
    const start = positionOf('sodum', misspelt);
    expect(diagnostics[0]).toMatchObject({ code: 'unknown-name', severity: 1, range: { start } });
    expect(diagnostics[0]?.codeDescription?.href).toBe('file:///pages/unknown-name.md');
  });

  test('has its findings taken back when it is mended, one character at a time', async () => {
    await client.initialize();
    client.open(uri, misspelt);
    await client.published(uri, 1);
    const place = positionOf('m chloride', misspelt);
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: 2 },
      contentChanges: [{ range: { start: place, end: place }, text: 'i' }],
    });
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: 3 },
      contentChanges: [
        { range: { start: place, end: { ...place, character: place.character + 1 } }, text: '' },
        { range: { start: { ...place, character: place.character - 1 }, end: place }, text: 'iu' },
      ],
    });
    expect((await client.published(uri, 3)).diagnostics).toEqual([]);
    expect(client.allPublished(uri).map(({ version }) => version)).toEqual([1, 3]);
  });

  test('answers a hover over a mixture with its card', async () => {
    await client.initialize();
    client.open(uri, good);
    const { result } = await client.hover(uri, positionOf('gastric "'));
    const { contents } = result as { contents: { kind: string; value: string } };
    expect(contents.kind).toBe('markdown');
    expect(contents.value).toContain('1010 mL');
  });

  test('answers with results at the end of their lines, only in the range asked for', async () => {
    await client.initialize();
    client.open(uri, good);
    const hints = async (first: number, last: number): Promise<{ position: object; label: string }[]> => {
      const range = { start: { line: first, character: 0 }, end: { line: last, character: 0 } };
      const { result } = await client.request('textDocument/inlayHint', { textDocument: { uri }, range });
      return result as { position: object; label: string }[];
    };
    const [hint] = await hints(0, 8);
    expect(hint?.label).toMatch(/^= 1010 mL/);
    const { line, character } = positionOf('\n  1 L');
    expect(hint?.position).toEqual({ line, character });
    expect(await hints(0, 2)).toEqual([]);
  });
});

describe('local policy', () => {
  test('is asked of the client and holds for the findings of a note; its own faults are published', async () => {
    const policy = 'file:///ward/infusion-policy.json';
    await client.initialize({}, { policy: true, docsBase: 'file:///pages' });
    client.answer('meniscus/policy', () => ({
      uri: policy,
      text: '{ "severities": { "nominal-claim": "error", "syntax": "off" } }',
    }));
    client.open(uri, good.replace('2 mmol/mL\n', '2 mmol/mL\n  claim sodium 150 mmol/L\n'));
    const { diagnostics } = await client.published(uri, 1);
    expect(diagnostics).toMatchObject([{ code: 'nominal-claim', severity: 1 }]);
    const { params } = await client.until(({ params: of }) => of?.uri === policy && 'diagnostics' in of);
    expect(params?.diagnostics).toMatchObject([
      { code: 'policy-invalid', codeDescription: { href: 'file:///pages/policy-invalid.md' } },
    ]);
  });
});

describe('a malformed message', () => {
  const bodies = [
    '{not JSON',
    '',
    'null',
    '42',
    '[]',
    '{"jsonrpc":"2.0"}',
    '{"jsonrpc":"2.0","id":1000}',
    '{"jsonrpc":"2.0","id":1001,"method":"nothing/known"}',
    '{"jsonrpc":"2.0","method":"nothing/known","params":7}',
    '{"jsonrpc":"2.0","id":1002,"method":"textDocument/hover"}',
    '{"jsonrpc":"2.0","id":1003,"method":"textDocument/hover","params":{"textDocument":{}}}',
    `{"jsonrpc":"2.0","id":1004,"method":"textDocument/hover","params":{"textDocument":{"uri":"${uri}"},"position":{"line":"x"}}}`,
    `{"jsonrpc":"2.0","id":1005,"method":"textDocument/inlayHint","params":{"textDocument":{"uri":"${uri}"},"range":null}}`,
    '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{}}',
    '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///other.md"}}}',
    '{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":"file:///absent.md","version":2},"contentChanges":[{"text":"x"}]}}',
    '{"jsonrpc":"2.0","method":"textDocument/didClose","params":{"textDocument":null}}',
    '{"jsonrpc":"2.0","method":"workspace/didChangeWatchedFiles","params":{"changes":[{}]}}',
    '{"jsonrpc":"2.0","method":"meniscus/policyChanged","params":7}',
    '{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":[]}}',
  ];

  test.each(bodies)('is survived: %s', async (body) => {
    await client.initialize();
    client.open(uri, good);
    client.sendText(body);
    const { result } = await client.hover(uri, positionOf('gastric "'));
    expect(result).not.toBeNull();
  });

  test('that asks something is answered', async () => {
    await client.initialize();
    for (const body of bodies.filter((text) => text.includes('"method"') && text.includes('"id":'))) {
      client.sendText(body);
    }
    const answer = (id: number): Promise<Message> => client.until((message) => message.id === id);
    expect((await answer(1001)).error?.code).toBe(-32601);
    expect((await answer(1002)).error).toBeDefined();
    expect((await answer(1003)).result).toBeNull();
    expect((await answer(1004)).result).toBeNull();
    expect((await answer(1005)).result).toBeNull();
  });
});

describe('the process', () => {
  // Exit codes: Language Server Protocol 3.17, "Exit Notification".
  test('ends with 0 after shutdown and exit', async () => {
    await client.initialize();
    await client.request('shutdown');
    client.notify('exit');
    expect(await exit).toBe(0);
  });

  test('ends with 1 on exit without shutdown', async () => {
    await client.initialize();
    client.notify('exit');
    expect(await exit).toBe(1);
  });

  test('ends when nobody speaks to it any more', async () => {
    await client.initialize();
    server.stdin?.end();
    expect(await exit).not.toBeNull();
  });

  test('offers incremental text, and all that the service answers, in UTF-16', async () => {
    expect(await client.initialize()).toEqual({
      positionEncoding: 'utf-16',
      textDocumentSync: 2,
      hoverProvider: true,
      inlayHintProvider: true,
      codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite'] },
      documentFormattingProvider: true,
      documentRangeFormattingProvider: true,
      completionProvider: { triggerCharacters: [' ', '/', ':', '`'] },
      definitionProvider: true,
      referencesProvider: true,
      documentHighlightProvider: true,
      documentSymbolProvider: true,
      documentLinkProvider: {},
      foldingRangeProvider: true,
      workspaceSymbolProvider: true,
      renameProvider: true,
    });
  });
});
