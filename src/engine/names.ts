/** How names are compared. */

/** NFC, lower case, hyphens and runs of spaces as one space, straight apostrophes: the key of a name. */
export function nameKey(text: string): string {
  return text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[’‘ʼ]/g, "'")
    .replace(/[\s\-‐‑]+/g, ' ')
    .trim();
}

/** The key with apostrophes left out, so that Ringers and Ringer's meet. */
export function plainKey(key: string): string {
  return nameKey(key).replaceAll("'", '');
}
