/** Every import in `src` points to the left, and each outside library stays in the rooms that may know it. */
import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../', import.meta.url));

/** From left to right; rooms of one step do not know each other. */
const steps = [
  ['shared', 'package.json'],
  ['src/engine'],
  ['src/text'],
  ['src/notation', 'src/markdown'],
  ['src/note'],
  ['src/checks'],
  ['src/render'],
  ['src/service'],
  ['src/preview', 'src/files'],
  ['src/server', 'src/extension', 'src/cli'],
];

/** Packages that only some files may import, by the start of the package's name and of the file's path. */
const confined: readonly { readonly packages: RegExp; readonly to: RegExp }[] = [
  { packages: /^vscode$/, to: /^src\/extension\// },
  { packages: /^vscode-(languageserver|languageclient|jsonrpc)/, to: /^src\/(server|extension)\// },
  { packages: /^node:/, to: /^src\/(cli\/|files\/|server\/(node|frames|workspace-files)\.ts$|extension\/node\.ts$)/ },
  { packages: /^decimal\.js/, to: /^src\/engine\// },
  { packages: /^jsonc-parser/, to: /^src\/note\/policy\// },
  { packages: /^markdown-it/, to: /^src\/(preview\/|extension\/preview\.ts$)/ },
];

/** What is wrong with `file` (a path from the project's folder) importing `specifier`, or null. */
function fault(file: string, specifier: string): string | null {
  if (specifier.startsWith('.')) return relativeFault(file, specifier);
  if (builtinModules.includes(specifier)) return 'a module of Node without `node:`';
  const rule = confined.find(({ packages }) => packages.test(specifier));
  return rule && !rule.to.test(file) ? `only ${rule.to.source} may import it` : null;
}

function relativeFault(file: string, specifier: string): string | null {
  if (!/\.(ts|json)$/.test(specifier)) return 'a relative import without its ending';
  const target = posix.join(posix.dirname(file), specifier);
  const [from, to] = [stepOf(file), stepOf(target)];
  if (from === null || to === null) return 'outside the rooms';
  if (from.room === to.room) return null;
  return to.step < from.step ? null : `${from.room} may not know ${to.room}`;
}

function stepOf(path: string): { readonly step: number; readonly room: string } | null {
  for (const [step, rooms] of steps.entries()) {
    const room = rooms.find((name) => path === name || path.startsWith(`${name}/`));
    if (room) return { step, room };
  }
  return null;
}

/** Every import, export from, `import()` and `import` type; those that are of types alone count as well. */
function importsOf(text: string): readonly string[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => fileName);
}

describe('the rule', () => {
  test.each([
    ['src/checks/syntax.ts', '../note/faults.ts'],
    ['src/engine/a.ts', './b.ts'],
    ['src/engine/a.ts', '../../shared/substances.json'],
    ['src/cli/report/text.ts', '../../engine/decimal.ts'],
    ['src/cli/main.ts', '../../package.json'],
    ['src/engine/decimal.ts', 'decimal.js'],
    ['src/note/policy/json.ts', 'jsonc-parser'],
    ['src/server/node.ts', 'node:process'],
    ['src/server/workspace-files.ts', '../files/used-note.ts'],
    ['src/extension/client.ts', 'vscode-languageclient/browser'],
  ])('lets %s import %s', (file, specifier) => {
    expect(fault(file, specifier)).toBeNull();
  });

  test.each([
    ['src/engine/a.ts', '../text/tree.ts'],
    ['src/notation/a.ts', '../markdown/note-text.ts'],
    ['src/markdown/a.ts', '../notation/ast.ts'],
    ['src/server/a.ts', '../extension/client.ts'],
    ['src/service/a.ts', '../cli/main.ts'],
    ['src/service/a.ts', '../preview/plugin.ts'],
    ['src/cli/a.ts', 'markdown-it'],
    ['src/engine/a.ts', './b'],
    ['src/engine/a.ts', '../../tests/a.ts'],
    ['src/service/a.ts', 'vscode'],
    ['src/service/a.ts', 'vscode-languageserver-textdocument'],
    ['src/server/browser.ts', 'node:fs'],
    ['src/cli/a.ts', 'fs'],
    ['src/note/a.ts', 'decimal.js'],
    ['src/server/a.ts', 'jsonc-parser'],
  ])('does not let %s import %s', (file, specifier) => {
    expect(fault(file, specifier)).not.toBeNull();
  });

  test('sees imports of every form', () => {
    const text = `
      import type { A } from 'a'; import { type B } from 'b'; import 'c'; export * from 'd'; export type { E } from 'e';
      const f = await import('f'); type G = import('g').G;`;
    expect(importsOf(text)).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g']);
  });
});

test('every file in src keeps it', () => {
  const entries = readdirSync(`${root}src`, { recursive: true, encoding: 'utf8' });
  const files = entries.filter((name) => name.endsWith('.ts')).map((name) => `src/${name.replaceAll('\\', '/')}`);
  expect(files.length).toBeGreaterThan(0);
  const faults = files.flatMap((file) =>
    importsOf(readFileSync(root + file, 'utf8')).flatMap((specifier) => {
      const wrong = fault(file, specifier);
      return wrong === null ? [] : [`${file} imports ${specifier}: ${wrong}`];
    }),
  );
  expect(faults).toEqual([]);
});
