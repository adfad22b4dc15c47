/** A fenced block of a page. */
export function fence(language: string, text: string): string {
  const ticks = text.includes('```') ? '````' : '```';
  return `${ticks}${language}\n${text}\n${ticks}`;
}
