/** Squiggles: there when something is wrong, on the right word, and gone when it is mended. */
import * as vscode from 'vscode';
import { type EditorTest, equal, eventually, findings, rangeOf, saved, untitled } from './harness.ts';

const misspelt = '```infusion\nmixture gastric\n  1 L sodum chloride 0.9%\n```\n';

async function becomesMisspelt({ document }: vscode.TextEditor): Promise<vscode.Diagnostic> {
  const [finding] = await eventually('a finding', () => findings(document).length > 0 && findings(document));
  if (!finding) throw new Error('no finding');
  return finding;
}

/** The code that is shown, and where a click on it leads. */
function codeOf({ code }: vscode.Diagnostic): { value: string; page: string } {
  if (typeof code !== 'object') throw new Error('the finding has no code with a link');
  return { value: String(code.value), page: code.target.path };
}

export const findingTests: EditorTest[] = [
  {
    name: 'a misspelt solute in a saved note is found at its word, with a code and the page about it',
    async run() {
      const editor = await saved('misspelt.md');
      const finding = await becomesMisspelt(editor);
      const { value, page } = codeOf(finding);
      equal(value, 'unknown-name', 'code');
      equal(finding.severity, vscode.DiagnosticSeverity.Error, 'severity');
      equal(finding.range.start, rangeOf(editor.document, 'sodum').start, 'place');
      equal(findings(editor.document).length, 1, 'number of findings');
      if (!page.endsWith('/docs/checks/unknown-name.md')) throw new Error(`the code leads to ${page}`);
    },
  },
  {
    name: 'a finding goes when its word is mended, in a note that was never saved',
    async run() {
      const editor = await untitled(misspelt);
      equal(editor.document.uri.scheme, 'untitled', 'scheme');
      await becomesMisspelt(editor);
      await editor.edit((edit) => edit.replace(rangeOf(editor.document, 'sodum'), 'sodium'));
      await eventually('no finding', () => findings(editor.document).length === 0);
    },
  },
  {
    name: 'a finding follows what is typed, and its last place stays until then',
    async run() {
      const editor = await untitled(misspelt);
      await becomesMisspelt(editor);
      await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), '# A heading\n\n'));
      equal(findings(editor.document).length, 1, 'number of findings right after typing');
      await eventually(
        'the finding two lines further down',
        () => findings(editor.document)[0]?.range.start.line === 4,
      );
    },
  },
  {
    name: 'a note without an infusion block has no findings',
    async run() {
      const quiet = await untitled('# Round\n\n1 L sodum chloride 0.9%\n');
      const loud = await untitled(misspelt);
      await becomesMisspelt(loud);
      equal(findings(quiet.document).length, 0, 'number of findings');
    },
  },
];
