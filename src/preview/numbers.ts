/** `[77 mmol/L](infusion:gastric/sodium)` is a number with a title for a reader, and no link: it leads nowhere in a browser. */
import type { Token } from 'markdown-it';

const TARGET = /^infusion:(.*)$/i;

/** Makes a span of each such link of a document; its text stays as it is. */
export function showNumbersAsText(tokens: readonly Token[]): void {
  for (const { children } of tokens) {
    let inside = false;
    for (const token of children ?? []) {
      if (token.type === 'link_open') {
        const target = TARGET.exec(String(token.attrGet('href') ?? ''))?.[1];
        inside = target !== undefined;
        if (target === undefined) continue;
        token.tag = 'span';
        token.attrs = [
          ['class', 'meniscus-value'],
          ['title', titleOf(target)],
        ];
      } else if (token.type === 'link_close' && inside) {
        token.tag = 'span';
        inside = false;
      }
    }
  }
}

/** `gastric/sodium` → `worked out: gastric, sodium`. */
function titleOf(target: string): string {
  return `worked out: ${decoded(target).split('/').filter(Boolean).join(', ')}`;
}

function decoded(target: string): string {
  try {
    return decodeURIComponent(target);
  } catch {
    return target;
  }
}
