/** Whole web addresses in characters that mean nothing to Markdown inside a link's target. */
export function isWebAddress(href: string): boolean {
  return /^https:\/\/[\w.~:/?#@!$'+,;=%&-]+$/.test(href);
}
