/** What VS Code runs in its extension host: every test, one after the other, each outcome on a line of the log. */
import * as vscode from 'vscode';
import { activationTests } from './activation.ts';
import { commandTests } from './commands.ts';
import { findingTests } from './findings.ts';
import { fixTests } from './fixes.ts';
import { formattingTests } from './formatting.ts';
import type { EditorTest } from './harness.ts';
import { hoverTests } from './hovers.ts';
import { type Outcome, outcomeMark } from './outcome.ts';
import { policyTests } from './policy.ts';
import { restartTests } from './restart.ts';
import { resultTests } from './results.ts';
import { updateTests } from './updates.ts';
import { writingTests } from './writing.ts';

export async function run(): Promise<void> {
  let failed = 0;
  for (const test of [
    ...activationTests,
    ...findingTests,
    ...fixTests,
    ...formattingTests,
    ...hoverTests,
    ...resultTests,
    ...policyTests,
    ...writingTests,
    ...commandTests,
    ...updateTests,
    ...restartTests,
  ]) {
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
