/**
 * Text that a terminal shows and does not obey, of the same length: line ends and tabs as spaces, other control
 * characters as their pictures (Unicode, Control Pictures, U+2400 and on), direction marks as U+FFFD.
 */
export function terminalSafe(text: string): string {
  return text
    .replace(/[\t\n\v\f\r\x85\u2028\u2029]/g, ' ')
    .replace(/[\x00-\x1F]/g, (control) => String.fromCharCode(0x2400 + control.charCodeAt(0)))
    .replace(/\x7F/g, '\u2421')
    .replace(/[\x80-\x9F\u200E\u200F\u202A-\u202E\u2066-\u2069]/g, '\uFFFD');
}
