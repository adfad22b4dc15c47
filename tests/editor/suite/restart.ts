/** A language server that ends is started again, and knows what is open. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, untitled } from './harness.ts';
import { killMark } from './outcome.ts';

const misspelt = '```infusion\nmixture gastric\n  1 L sodum chloride 0.9%\n```\n';

/** Two notes, one of them not in front, with findings; then `end` ends the server. */
async function survives(end: () => Promise<void>): Promise<void> {
  const [behind, front] = [await untitled(`# Behind\n\n${misspelt}`), await untitled(misspelt)];
  const both = [behind.document, front.document];
  const found = () => both.every((document) => findings(document).length === 1);
  await eventually('findings of both notes', found);
  await end();
  // What is typed now only a new server can take in, and only if it was told what stood there before.
  await front.edit((edit) => edit.replace(rangeOf(front.document, 'sodum'), 'sodium'));
  await eventually('no finding of the mended note', () => findings(front.document).length === 0);
  await front.edit((edit) => edit.insert(new vscode.Position(3, 0), 'show gastric sodim\n'));
  await eventually('a finding of what was typed since', () => findings(front.document)[0]?.range.start.line === 3);
  await eventually('the finding of the other note', () => findings(behind.document).length === 1);
  equal(findings(behind.document)[0]?.range.start, rangeOf(behind.document, 'sodum').start, 'its place');
}

/** Waits until the runner outside has done it; it says so with a file. */
async function kill(): Promise<void> {
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (!folder) throw new Error('no folder is open');
  console.log(killMark);
  await eventually('the killing', async () =>
    vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, 'killed')).then(
      () => true,
      () => false,
    ),
  );
}

const byHand: EditorTest = {
  name: 'a server that is restarted by the command knows the open notes',
  run: () =>
    survives(async () => {
      await vscode.commands.executeCommand('meniscus.restart');
    }),
};

const killed: EditorTest = {
  name: 'a killed server is started again, and knows the open notes',
  run: () => survives(kill),
};

/** In a browser the server is a worker, which ends with its window and not before. */
export const restartTests: EditorTest[] = vscode.env.remoteName === undefined ? [byHand] : [byHand, killed];
