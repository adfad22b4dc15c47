/** What VS Code runs in its extension host of a window that trusts its folder. */
import { activationTests } from './activation.ts';
import { commandTests } from './commands.ts';
import { findingTests } from './findings.ts';
import { fixTests } from './fixes.ts';
import { formattingTests } from './formatting.ts';
import { hoverTests } from './hovers.ts';
import { notebookTests } from './notebooks.ts';
import { policyTests } from './policy.ts';
import { restartTests } from './restart.ts';
import { resultTests } from './results.ts';
import { runAll } from './runner.ts';
import { updateTests } from './updates.ts';
import { workspaceTests } from './workspace.ts';
import { writingTests } from './writing.ts';

export function run(): Promise<void> {
  return runAll([
    ...activationTests,
    ...findingTests,
    ...fixTests,
    ...formattingTests,
    ...hoverTests,
    ...resultTests,
    ...policyTests,
    ...writingTests,
    ...workspaceTests,
    ...notebookTests,
    ...commandTests,
    ...updateTests,
    ...restartTests,
  ]);
}
