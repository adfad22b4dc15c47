/** Text with gaps to fill in, written `‹name›` or `‹›`. */

const GAP = /‹([^›]*)›/g;

/** In the syntax of snippets; the last place is its end. */
export function snippet(text: string): string {
  let gap = 0;
  const filled = text.replace(/[\\$}]/g, '\\$&').replace(GAP, (_, name: string) => {
    gap += 1;
    return name === '' ? `$${gap}` : `\${${gap}:${name}}`;
  });
  return text.endsWith('‹›') ? filled : `${filled}$0`;
}

/** With the names of the gaps in their place. */
export function filledIn(text: string): string {
  return text.replace(GAP, '$1');
}
