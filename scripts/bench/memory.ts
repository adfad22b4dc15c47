/** What the server holds when a thousand notes are open, and how large the bundles are. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFile, stat } from 'node:fs/promises';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { root } from '../root.ts';
import { type Finding, plain } from './measure.ts';
import { note } from './notes.ts';

const NOTES = 1000;
const BUNDLES = ['cli.js', 'server/node.js', 'server/browser.js', 'extension/node.js', 'extension/browser.js'];

export async function memory(): Promise<readonly Finding[]> {
  const server = spawn(process.execPath, [`${root}dist/server/node.js`, '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  try {
    const connection = createMessageConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    const published = new Promise<void>((resolve) => {
      const heard = new Set<string>();
      connection.onNotification('textDocument/publishDiagnostics', ({ uri }: { readonly uri: string }) => {
        if (heard.add(uri).size === NOTES) resolve();
      });
    });
    connection.listen();
    await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
    await connection.sendNotification('initialized', {});
    const empty = await megabytes(server);
    for (let serial = 0; serial < NOTES; serial += 1) {
      const textDocument = {
        uri: `file:///note-${serial}.md`,
        languageId: 'markdown',
        version: 1,
        text: note(serial, 5500, 3),
      };
      await connection.sendNotification('textDocument/didOpen', { textDocument });
    }
    await published;
    return [
      plain('(f) memory of the server before any note', `${empty} MB`),
      plain('(f) with 1,000 notes of 5.5 kB and three blocks open', `${await megabytes(server)} MB`),
      ...(await bundles()),
    ];
  } finally {
    server.kill();
  }
}

/** Resident, as the kernel counts it; Linux only. */
async function megabytes({ pid }: ChildProcess): Promise<string> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '');
  const kilobytes = /^VmRSS:\s+(\d+) kB$/m.exec(status)?.[1];
  return kilobytes ? String(Math.round(Number(kilobytes) / 1024)) : 'not measured here';
}

function bundles(): Promise<readonly Finding[]> {
  return Promise.all(
    BUNDLES.map(async (name) => {
      const { size } = await stat(`${root}dist/${name}`);
      return plain(`(g) size of \`dist/${name}\``, `${Math.round(size / 1000).toLocaleString('en')} kB`);
    }),
  );
}
