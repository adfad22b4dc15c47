/** Local policy: found above a note, followed while it is typed, completed by its schema. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, saved } from './harness.ts';

const note = 'local/rounded.md';
const policy = 'local/infusion-policy.json';

async function severityBecomes(document: vscode.TextDocument, severity: vscode.DiagnosticSeverity): Promise<void> {
  await eventually(`severity ${severity}`, () => findings(document)[0]?.severity === severity);
}

export const policyTests: EditorTest[] = [
  {
    name: 'the policy in a note’s folder says how its findings are taken',
    async run() {
      const { document } = await saved(note);
      await severityBecomes(document, vscode.DiagnosticSeverity.Warning);
    },
  },
  {
    name: 'what is typed into a policy holds for open notes at once, and its own faults are underlined',
    async run() {
      const { document } = await saved(note);
      await severityBecomes(document, vscode.DiagnosticSeverity.Warning);
      const file = await saved(policy);
      await file.edit((edit) => edit.replace(rangeOf(file.document, 'warning'), 'error'));
      await severityBecomes(document, vscode.DiagnosticSeverity.Error);
      await file.edit((edit) => edit.replace(rangeOf(file.document, 'error'), 'loud'));
      const [fault] = await eventually('a fault', () => findings(file.document).length > 0 && findings(file.document));
      equal(fault?.range, rangeOf(file.document, '"loud"'), 'place of the fault');
      await severityBecomes(document, vscode.DiagnosticSeverity.Information);
    },
  },
  {
    name: 'the schema of policies completes their entries',
    async run() {
      const { document } = await saved(policy);
      const end = document.positionAt(document.getText().indexOf('"severities"'));
      const labels = await eventually('the entry ‘pharmacopoeia’', async () => {
        const list = await vscode.commands.executeCommand<vscode.CompletionList>(
          'vscode.executeCompletionItemProvider',
          document.uri,
          end,
        );
        const names = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
        return names.includes('pharmacopoeia') && names;
      });
      equal(labels.includes('claim-tolerance'), true, 'the entry ‘claim-tolerance’ is offered');
    },
  },
];
