/** Made for the first text that needs it, since the tables behind it take ten milliseconds to load. */
let characters: Intl.Segmenter | null = null;

/** East Asian wide and full-width letters, and pictures shown as such (Unicode Standard Annex 11, in outline). */
const WIDE =
  /^(?:\p{Emoji_Presentation}|.\uFE0F|[\u1100-\u115F\u2E80-\u303E\u3041-\uA4CF\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF01-\uFF60\uFFE0-\uFFE6]|[\u{20000}-\u{3FFFD}])/u;

/** The columns a text takes in a terminal. */
export function textWidth(text: string): number {
  if (/^[ -~]*$/.test(text)) return text.length;
  characters ??= new Intl.Segmenter(undefined, { granularity: 'grapheme' });
  let width = 0;
  for (const { segment } of characters.segment(text)) width += WIDE.test(segment) ? 2 : 1;
  return width;
}
