/** Text with gaps to fill in, written `‹name›` or `‹›`, in the syntax of snippets; the last place is its end. */
export function snippet(text: string): string {
  let gap = 0;
  const filled = text.replace(/[\\$}]/g, '\\$&').replace(/‹([^›]*)›/g, (_, name: string) => {
    gap += 1;
    return name === '' ? `$${gap}` : `\${${gap}:${name}}`;
  });
  return text.endsWith('‹›') ? filled : `${filled}$0`;
}
