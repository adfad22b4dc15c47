/** Bound numbers: brought up to date by the command, and by nothing else. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, untitled } from './harness.ts';

const stale =
  '```infusion\nmixture bag\n  1 L sodium chloride 0.9%\n```\n\nIt carries [140 mmol/L](infusion:bag/sodium).\n';

export const updateTests: EditorTest[] = [
  {
    name: 'a stale number is brought up to date by the command',
    async run() {
      const { document } = await untitled(stale);
      await eventually('a finding', () => findings(document).length > 0);
      equal(document.getText(), stale, 'the note before');
      await vscode.commands.executeCommand('meniscus.updateNumbers');
      equal(document.getText(), stale.replace('140', '154'), 'the note');
      await eventually('no finding', () => findings(document).length === 0);
    },
  },
];
