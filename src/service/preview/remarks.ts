/** Findings, and those that the note accepts, as they stand on a card. */
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { Tree } from '../../text/tree.ts';
import type { Diagnostic, Severity } from '../types.ts';

export interface Remark {
  readonly at: SourceSpan;
  readonly shown:
    | { readonly kind: 'finding'; readonly finding: Diagnostic }
    | { readonly kind: 'accepted'; readonly read: string; readonly reason: string };
}

const LABELS: Readonly<Record<Severity, string>> = {
  error: 'To be mended',
  warning: 'To be looked at',
  information: 'Worth knowing',
  hint: 'Wording',
};

export function remarkTree({ shown }: Remark): Tree {
  if (shown.kind === 'accepted') {
    return {
      kind: 'paragraph',
      inline: [{ text: `Accepted because ‘${shown.reason}’: ${shown.read}`, weight: 'quiet' }],
    };
  }
  const { severity, parts } = shown.finding;
  const source = parts.source ? ` [${parts.source}]` : '';
  return {
    kind: 'finding',
    weight: severity,
    inline: [
      { text: `${LABELS[severity]}: `, weight: 'strong' },
      { text: `${parts.read} ${parts.why} ${parts.mend}${source}` },
    ],
  };
}
