/** Runs tests one after the other, each outcome on a line of the log. */
import * as vscode from 'vscode';
import type { EditorTest } from './harness.ts';
import { type Outcome, outcomeMark } from './outcome.ts';

export async function runAll(tests: readonly EditorTest[]): Promise<void> {
  let failed = 0;
  for (const test of tests) {
    const failure = await failureOf(test);
    if (failure !== null) failed += 1;
    const outcome: Outcome = { name: test.name, failure };
    console.log(outcomeMark + JSON.stringify(outcome));
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  }
  if (failed > 0) throw new Error(`${failed} failed`);
}

async function failureOf(test: EditorTest): Promise<string | null> {
  try {
    await test.run();
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
