import { DECEIVING } from './deceiving.ts';

/**
 * Text that a terminal shows and does not obey, of the same length: line ends and tabs as spaces, other control
 * characters as their pictures (Unicode, Control Pictures, U+2400 and on), direction marks and what is not seen as U+FFFD.
 */
export function terminalSafe(text: string): string {
  if (/^[ -~]*$/.test(text)) return text;
  return text
    .replace(/[\t\n\v\f\r\x85\u2028\u2029]/g, ' ')
    .replace(/[\x00-\x1F]/g, (control) => String.fromCharCode(0x2400 + control.charCodeAt(0)))
    .replace(/\x7F/g, '\u2421')
    .replace(UNSEEN, (unseen) => '\uFFFD'.repeat(unseen.length));
}

/** What neither a terminal nor a reader shows, and what changes how the rest is shown. */
export const UNSEEN = new RegExp(`[\\x80-\\x9F${DECEIVING}]`, 'gu');

/** JSON of the same meaning in which such characters are written as escapes. */
export function terminalSafeJson(json: string): string {
  return json.replace(JSON_UNSEEN, (unseen) =>
    Array.from({ length: unseen.length }, (_, at) => unseen.charCodeAt(at).toString(16).padStart(4, '0'))
      .map((code) => `\\u${code}`)
      .join(''),
  );
}

const JSON_UNSEEN = new RegExp(`[\\x7F-\\x9F\\u2028\\u2029${DECEIVING}]`, 'gu');
