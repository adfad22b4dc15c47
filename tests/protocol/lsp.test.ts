/**
 * `meniscus lsp --stdio` as another editor starts it: hand-framed JSON-RPC over a pipe, and files on a real disk.
 * Requirements: Language Server Protocol 3.17, "Base Protocol", "Lifecycle Messages", "Position", "Pull Diagnostics".
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdir, mkdtemp, readFile, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { JsonRpcClient, type Message, type Published } from '../server/json-rpc.ts';

const program = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const misspelt = '# Größe 😀\n\n```infusion\nmixture bag "Größe 😀" \n  1 L sodum chloride 0.9%\n```\n';
const rounded = '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 150 mmol/L\n```\n';
const user = '```infusion\nuse ./stock.md\nmixture bag\n  500 mL carrier\n```\n';
const stock = '```infusion\nmixture carrier\n  1 L sodium chloride 0.9%\n```\n';
const strict = '{ "severities": { "nominal-claim": "error" } }';

let home: string;
let server: ChildProcess;
let client: JsonRpcClient;
let exit: Promise<number | null>;

const at = (name: string): string => pathToFileURL(join(home, name)).href;
const codes = ({ diagnostics }: Pick<Published, 'diagnostics'>): string[] => diagnostics.map(({ code }) => code);

beforeEach(async () => {
  home = join(await realpath(await mkdtemp(join(tmpdir(), 'meniscus-lsp-'))), 'ward notes (1)');
  await mkdir(join(home, 'below'), { recursive: true });
  const child = spawn(process.execPath, [program, 'lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  server = child;
  exit = new Promise((resolve) => child.once('exit', resolve));
  client = new JsonRpcClient(child.stdin, child.stdout);
});

afterEach(async () => {
  server.kill('SIGKILL');
  await rm(join(home, '..'), { recursive: true, force: true });
});

/** Says hello as a client that has the folder open and knows nothing of Meniscus. */
async function hello(capabilities: object = {}, more: object = {}): Promise<Record<string, unknown>> {
  const folders = { rootUri: at(''), workspaceFolders: [{ uri: at(''), name: 'ward' }] };
  const { result } = await client.request('initialize', { processId: null, ...folders, capabilities, ...more });
  client.notify('initialized', {});
  return (result as { capabilities: Record<string, unknown> }).capabilities;
}

async function published(uri: string, fits: (codes: readonly string[]) => boolean): Promise<Published> {
  await client.until(() => client.allPublished(uri).some((found) => fits(codes(found))));
  return client.allPublished(uri).find((found) => fits(codes(found)))!;
}

describe('a plain client', () => {
  test('opens a note, is sent findings with their page on the disk, sees a card and mends the slip', async () => {
    await hello();
    client.open(at('note.md'), misspelt);
    const { diagnostics } = await client.published(at('note.md'), 1);
    expect(diagnostics).toMatchObject([{ code: 'unknown-name', severity: 1 }]);
    const page = fileURLToPath(diagnostics[0]?.codeDescription?.href ?? '');
    expect(await readFile(page, 'utf8')).toContain('unknown-name');
    const { range } = diagnostics[0]!;
    const { result } = await client.request('textDocument/codeAction', {
      textDocument: { uri: at('note.md') },
      range,
      context: { diagnostics },
    });
    const [fix] = result as {
      title: string;
      edit: { changes: Record<string, { range: object; newText: string }[]> };
    }[];
    expect(fix?.edit.changes[at('note.md')]).toMatchObject([{ newText: expect.stringContaining('sodium') }]);
    client.change(at('note.md'), 2, misspelt.replace('sodum', 'sodium'));
    expect((await client.published(at('note.md'), 2)).diagnostics).toEqual([]);
    const hover = await client.hover(at('note.md'), { line: 3, character: 9 });
    expect(hover.result).toMatchObject({ contents: { kind: 'markdown' } });
    expect(JSON.stringify(hover.result)).not.toContain('data:image');
    expect(JSON.stringify(hover.result)).not.toMatch(/<\w/);
  });

  test('that shows plain text alone gets cards in plain text', async () => {
    await hello({ textDocument: { hover: { contentFormat: ['plaintext'] } } });
    client.open(at('note.md'), stock);
    const { result } = await client.hover(at('note.md'), { line: 1, character: 9 });
    const { contents } = result as { contents: { kind: string; value: string } };
    expect(contents.kind).toBe('plaintext');
    expect(contents.value).toContain('1000 mL');
    expect(contents.value).not.toMatch(/\*\*|\\|&#|data:|\| ---/);
  });

  test('that draws the pictures of cards says so, and gets them', async () => {
    await hello({}, { initializationOptions: { pictures: true } });
    client.open(at('note.md'), stock);
    const { result } = await client.hover(at('note.md'), { line: 1, character: 9 });
    expect(JSON.stringify(result)).toContain('data:image/svg+xml');
  });

  test.each([true, false])('gets snippets if it fills them in: %s', async (snippetSupport) => {
    await hello({ textDocument: { completion: { completionItem: { snippetSupport } } } });
    client.open(at('note.md'), '```infusion\n\n```\n');
    const { result } = await client.request('textDocument/completion', {
      textDocument: { uri: at('note.md') },
      position: { line: 1, character: 0 },
    });
    const { items } = result as { items: { insertTextFormat?: number; textEdit: { newText: string } }[] };
    expect(items.length).toBeGreaterThan(0);
    expect(items.some(({ insertTextFormat }) => insertTextFormat === 2)).toBe(snippetSupport);
    expect(items.some(({ textEdit }) => /\$\{?\d/.test(textEdit.newText))).toBe(snippetSupport);
  });

  test.each([true, false])('is offered a look before renaming if it takes one: %s', async (prepareSupport) => {
    const { renameProvider } = await hello({ textDocument: { rename: { prepareSupport } } });
    expect(renameProvider).toEqual(prepareSupport ? { prepareProvider: true } : true);
  });
});

describe('places in a line', () => {
  // Units before ‘140’: ö and ß take two bytes in UTF-8, the face four, and two units in UTF-16 (RFC 3629, RFC 2781).
  const stale = `${rounded.replace('  claim sodium 150 mmol/L\n', '')}\nGröße 😀 [140 mmol/L](infusion:bag/sodium)\r\n`;
  test.each([
    [undefined, 'utf-16', 10],
    [['utf-16'], 'utf-16', 10],
    [['utf-8', 'utf-16'], 'utf-8', 14],
    [['utf-32', 'utf-16'], 'utf-32', 9],
    [['utf-7', 'utf-32'], 'utf-32', 9],
    [['utf-7'], 'utf-16', 10],
  ])('are counted as a client offers, %j: %s', async (positionEncodings, chosen, character) => {
    expect((await hello({ general: { ...(positionEncodings && { positionEncodings }) } })).positionEncoding).toBe(
      chosen,
    );
    client.open(at('note.md'), stale);
    const [finding] = (await client.published(at('note.md'), 1)).diagnostics;
    expect(finding).toMatchObject({ code: 'stale-number', range: { start: { line: 5, character } } });
    const change = (from: number, to: number, text: string, version: number): void =>
      client.notify('textDocument/didChange', {
        textDocument: { uri: at('note.md'), version },
        contentChanges: [{ range: { start: { line: 5, character: from }, end: { line: 5, character: to } }, text }],
      });
    change(character, character + 3, '154', 2);
    expect((await client.published(at('note.md'), 2)).diagnostics).toEqual([]);
    // Behind the end of the line is its end.
    change(character + 900, character + 901, ' and [140 mmol/L](infusion:bag/sodium)', 3);
    expect((await client.published(at('note.md'), 3)).diagnostics).toMatchObject([{ range: { start: { line: 5 } } }]);
  });
});

describe('findings', () => {
  const pulling = {
    textDocument: { diagnostic: { relatedDocumentSupport: true } },
    workspace: { diagnostics: { refreshSupport: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
  };
  const pull = async (name: string) => {
    const { result } = await client.request('textDocument/diagnostic', { textDocument: { uri: at(name) } });
    return result as { kind: string; items: Published['diagnostics']; relatedDocuments?: Record<string, unknown> };
  };
  const refreshes = (): Message[] => client.received.filter(({ method }) => method === 'workspace/diagnostic/refresh');

  test('are given when asked for, and then never sent', async () => {
    expect((await hello(pulling)).diagnosticProvider).toMatchObject({ interFileDependencies: true });
    client.open(at('note.md'), misspelt);
    expect(await pull('note.md')).toMatchObject({ kind: 'full', items: [{ code: 'unknown-name' }] });
    client.change(at('note.md'), 2, misspelt.replace('sodum', 'sodium'));
    expect(await pull('note.md')).toEqual({ kind: 'full', items: [] });
    expect(await pull('absent.md')).toEqual({ kind: 'full', items: [] });
    client.notify('textDocument/didClose', { textDocument: { uri: at('note.md') } });
    await pull('note.md');
    expect(client.received.filter(({ method }) => method === 'textDocument/publishDiagnostics')).toEqual([]);
  });

  test('are sent to a client that does not ask, and none is offered to it', async () => {
    expect(await hello()).not.toHaveProperty('diagnosticProvider');
  });

  test('are to be asked for again when another file changes them; a policy’s own come with a note’s', async () => {
    await hello(pulling);
    client.answer('workspace/diagnostic/refresh', () => null);
    client.answer('client/registerCapability', () => null);
    await client.until(({ method }) => method === 'client/registerCapability');
    client.open(at('note.md'), rounded);
    expect((await pull('note.md')).items).toMatchObject([{ code: 'nominal-claim', severity: 3 }]);
    expect(refreshes()).toEqual([]);
    await writeFile(join(home, 'infusion-policy.json'), strict.replace('}', ', "syntax": "off" }'));
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: at('infusion-policy.json'), type: 1 }] });
    await client.until(() => refreshes().length > 0);
    const { items, relatedDocuments } = await pull('note.md');
    expect(items).toMatchObject([{ code: 'nominal-claim', severity: 1 }]);
    expect(relatedDocuments?.[at('infusion-policy.json')]).toMatchObject({ items: [{ code: 'policy-invalid' }] });
  });
});

describe('files that the client does not read for the server', () => {
  test('a policy holds, the nearest first, and a note that is used is read', async () => {
    await writeFile(join(home, 'infusion-policy.json'), strict);
    await writeFile(join(home, 'stock.md'), stock);
    await hello();
    client.open(at('note.md'), rounded);
    expect((await client.published(at('note.md'), 1)).diagnostics).toMatchObject([{ severity: 1 }]);
    client.open(at('below/note.md'), user.replace('./stock.md', '../stock.md'));
    expect((await client.published(at('below/note.md'), 1)).diagnostics).toEqual([]);
  });

  test('a workspace whose folder is a link is read where it leads', async () => {
    await writeFile(join(home, 'infusion-policy.json'), strict);
    await writeFile(join(home, 'stock.md'), stock);
    await symlink(home, join(home, '../link'));
    const link = at('../link');
    await hello({}, { rootUri: link, workspaceFolders: [{ uri: link, name: 'link' }] });
    client.open(`${link}/note.md`, rounded);
    expect((await client.published(`${link}/note.md`, 1)).diagnostics).toMatchObject([{ severity: 1 }]);
    client.open(`${link}/other.md`, user);
    expect((await client.published(`${link}/other.md`, 1)).diagnostics).toEqual([]);
  });

  test('what stands in an editor comes before the disk, however its address is spelt', async () => {
    await writeFile(join(home, 'stock.md'), stock);
    await hello();
    const spelt = at('stock.md').replace('(', '%28').replace(')', '%29').replaceAll('m', '%6D');
    client.open(at('note.md'), user);
    await published(at('note.md'), (found) => found.length === 0);
    client.open(spelt, stock.replace('carrier', 'brine'));
    await published(at('note.md'), (found) => found.includes('unknown-name'));
    client.notify('textDocument/didClose', { textDocument: { uri: spelt } });
    await client.until(() => codes(client.allPublished(at('note.md')).at(-1)!).length === 0);
  });

  test('changes are followed: by watching where that can be had, else with each saving', async () => {
    for (const watches of [true, false]) {
      if (!watches) {
        server.kill('SIGKILL');
        await exit;
        const child = spawn(process.execPath, [program, 'lsp', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
        server = child;
        client = new JsonRpcClient(child.stdin, child.stdout);
        await rm(join(home, 'stock.md'));
      }
      await hello({ workspace: { didChangeWatchedFiles: { dynamicRegistration: watches } } });
      if (watches) {
        const { params } = await client.until(({ method }) => method === 'client/registerCapability');
        expect(JSON.stringify(params)).toContain('**/infusion-policy.json');
      }
      client.open(at('note.md'), user);
      await published(at('note.md'), (found) => found.includes('missing-note'));
      await writeFile(join(home, 'stock.md'), stock);
      if (watches) {
        client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: at('stock.md'), type: 1 }] });
      } else {
        client.notify('textDocument/didSave', { textDocument: { uri: at('note.md') } });
      }
      await published(at('note.md'), (found) => found.length === 0);
    }
  });

  test('nothing outside the folders is read: not by dots, not by a link, not where no folder is open', async () => {
    await writeFile(join(home, '../stock.md'), stock);
    await writeFile(join(home, '../infusion-policy.json'), strict);
    await symlink(join(home, '../stock.md'), join(home, 'stock.md'));
    await symlink(join(home, '../infusion-policy.json'), join(home, 'below/infusion-policy.json'));
    await hello({ workspace: { workspaceFolders: true } });
    client.open(at('note.md'), user);
    expect(codes(await client.published(at('note.md'), 1))).toContain('outside-workspace');
    client.open(at('other.md'), user.replace('./stock.md', '../stock.md'));
    expect(codes(await client.published(at('other.md'), 1))).toContain('outside-workspace');
    client.open(at('below/note.md'), rounded);
    expect((await client.published(at('below/note.md'), 1)).diagnostics).toMatchObject([{ severity: 3 }]);
    client.notify('workspace/didChangeWorkspaceFolders', {
      event: { added: [], removed: [{ uri: at(''), name: 'ward' }] },
    });
    await rm(join(home, 'stock.md'));
    await writeFile(join(home, 'stock.md'), stock);
    client.open(at('third.md'), user);
    expect(codes(await client.published(at('third.md'), 1))).toContain('outside-workspace');
  });
});

describe('the process', () => {
  test.each([
    [true, 0],
    [false, 1],
  ])('ends on exit; after shutdown %s with %d', async (shutdown, code) => {
    await hello();
    if (shutdown) await client.request('shutdown');
    client.notify('exit');
    expect(await exit).toBe(code);
  });

  test('ends with its standard input', async () => {
    await hello();
    server.stdin?.end();
    expect(await exit).toBe(1);
  });

  test('ends with the process that the client says it is', async () => {
    const parent = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
    await hello({}, { processId: parent.pid });
    parent.kill('SIGKILL');
    expect(await exit).toBe(1);
  });

  test('says what it wants when it is started without a transport', async () => {
    const child = spawn(process.execPath, [program, 'lsp'], { stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stderr.on('data', (chunk) => {
      said += chunk;
    });
    expect(await new Promise((resolve) => child.once('close', resolve))).toBe(2);
    expect(said).toContain('meniscus lsp --stdio');
  });
});
