import { DECEIVING } from './deceiving.ts';

/**
 * Text as Markdown that shows it and does nothing else, in any position of a GitHub-flavoured document.
 *
 * CommonMark 0.31.2, section 2.4: a backslash takes the meaning from any ASCII punctuation character. The colon, the
 * at sign and the point are among them because GitHub's flavour makes links of bare addresses (GFM 0.29, section 6.9).
 * Marks of code and HTML are named instead (section 2.5): the editor's renderer looks for their pairs before it
 * looks at backslashes.
 */
export function markdownText(text: string): string {
  return oneLine(text).replace(
    /[\\*_{}[\]()#+\-!|~$:@]|(?<!\d)\.|\.(?!\d)|[&<>`]/g,
    (mark) => NAMED[mark] ?? `\\${mark}`,
  );
}

const NAMED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '`': '&#96;' };

/**
 * Text for an image's description. The editor's renderer leaves backslashes there as they are, so what Markdown
 * could take for its own is left out instead.
 */
export function imageDescription(text: string): string {
  return oneLine(text)
    .replace(/[\\`*_[\]<>!|~&$]/g, '')
    .trim();
}

/** Line ends, other control characters and what is not seen as single spaces. */
export function oneLine(text: string): string {
  return text.replace(ENDS_AND_UNSEEN, ' ');
}

const ENDS_AND_UNSEEN = new RegExp(`\\r\\n|[\\p{Cc}\\u2028\\u2029${DECEIVING}]`, 'gu');
