/** What is shipped opens no connection, makes no code out of text, sends no telemetry, and carries permitted licences only. */
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../scripts/build.ts';
import { root } from '../../scripts/root.ts';

let folder = '';
const bundles = new Map<string, string>();

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-bundles-'));
  await build(folder);
  for (const name of await readdir(folder, { recursive: true }))
    if (name.endsWith('.js')) bundles.set(name, await readFile(join(folder, name), 'utf8'));
});

afterAll(() => rm(folder, { recursive: true, force: true }));

/** Ways out of a program, and ways of text into one. `import(` aside: it is checked by itself. */
const WAYS =
  /\bfetch\s*\(|\bXMLHttpRequest\b|\bWebSocket\b|\bEventSource\b|\bsendBeacon\b|\bWebTransport\b|\bRTCPeerConnection\b|\beval\s*\(|\bnew Function\b|\bimportScripts\b|require\("(?:node:)?(?:https?|http2|net|tls|dgram|dns|vm|child_process|worker_threads|cluster|inspector)(?:\/\w+)?"\)/g;

/** By bundle: what occurs, how often, and why. */
const EXPLAINED: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  // Threads of the command itself, which share the notes of a large folder.
  'cli.js': { 'require("node:worker_threads")': 3 },
  'server/browser.js': {},
  'extension/browser.js': {},
  // The protocol library: `net` for pipes of the machine when a client asks for one, `child_process` to end with its parent.
  'server/node.js': { 'require("net")': 1, 'require("child_process")': 1 },
  // The same, and the client starts the server as a process of its own, and ends it.
  'extension/node.js': { 'require("net")': 1, 'require("child_process")': 2 },
};

describe('a bundle', () => {
  it('is one of the five', () => {
    expect([...bundles.keys()].map((name) => name.replaceAll('\\', '/')).sort()).toEqual(Object.keys(EXPLAINED).sort());
  });

  it.each(Object.keys(EXPLAINED))('has no way out, and none in, that is not explained: %s', (name) => {
    const counts: Record<string, number> = {};
    for (const [way] of bundles.get(name)!.matchAll(WAYS)) counts[way] = (counts[way] ?? 0) + 1;
    expect(counts).toEqual(EXPLAINED[name]);
  });
});

it('nothing tells anybody anything', async () => {
  const { contributes, dependencies } = JSON.parse(await readFile(`${root}package.json`, 'utf8'));
  const settings = Object.keys(contributes.configuration.properties);
  expect(
    [...settings, ...Object.keys(dependencies)].filter((name) => /telemetry|analytics|sentry|insights/i.test(name)),
  ).toEqual([]);
  for (const text of bundles.values())
    expect(text).not.toMatch(/TelemetryReporter|applicationinsights|createTelemetryLogger/i);
});

/** Licences that let a copy travel with their notice, and ask nothing more. */
const PERMITTED = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'BlueOak-1.0.0', '0BSD', 'Apache-2.0']);

it('every package in a bundle has its licence in the list, and a permitted one', async () => {
  // A licence may hold such a line itself.
  const list = await readFile(join(folder, 'licences.txt'), 'utf8');
  const heads = [...list.matchAll(/^-{80}\n\n(@?\S+) \d\S* \((.+)\)$/gm)];
  expect(heads.filter(([, , licence]) => !PERMITTED.has(licence!)).map(([head]) => head)).toEqual([]);
  const { dependencies } = JSON.parse(await readFile(`${root}package.json`, 'utf8'));
  const names = new Set(heads.map(([, name]) => name!));
  // What is listed is what is bundled: a dependency that no bundle holds has no notice.
  expect(Object.keys(dependencies).filter((name) => !names.has(name))).toEqual([]);
  expect(list).not.toMatch(/\)\n\n-{80}$/m);
});
