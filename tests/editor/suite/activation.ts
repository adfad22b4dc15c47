/** When the extension starts, and how long that takes. To be run before anything else opens a note. */
import * as vscode from 'vscode';
import { type EditorTest, equal, extension } from './harness.ts';
import { timeMark } from './outcome.ts';

/** How long nothing may happen, in milliseconds. */
const pause = 3_000;

export const activationTests: EditorTest[] = [
  {
    name: 'nothing is started in a window without Markdown',
    async run() {
      const document = await vscode.workspace.openTextDocument({ language: 'plaintext', content: '1 L water' });
      await vscode.window.showTextDocument(document);
      await new Promise((resolve) => setTimeout(resolve, pause));
      equal(extension().isActive, false, 'active');
    },
  },
  {
    name: 'it starts with the first note',
    async run() {
      const start = performance.now();
      await vscode.workspace.openTextDocument({ language: 'markdown', content: '' });
      await extension().activate();
      console.log(`${timeMark}activation: ${Math.round(performance.now() - start)} ms`);
      equal(extension().isActive, true, 'active');
    },
  },
];
