/**
 * The places of a note in which a block may stand. Suites run their fixtures in all of them: what holds of a block
 * holds wherever it stands.
 */

export interface Wrapping {
  readonly name: string;
  /** A whole note around one block with this text. */
  wrap(blockText: string): string;
}

export const wrappings: readonly Wrapping[] = [
  { name: 'plain', wrap: (text) => `# Note\n\n${fenced(text)}\n\nAfter.\n` },
  { name: 'nothing around it', wrap: (text) => fenced(text) },
  { name: 'directly below a paragraph', wrap: (text) => `Before:\n${fenced(text)}\nAfter.\n` },
  { name: 'bullet list', wrap: (text) => `- Item\n\n${indented(fenced(text), '  ')}\n\n  More.\n- Next\n` },
  { name: 'first in a bullet', wrap: (text) => `- Item\n- ${indented(fenced(text), '  ').trimStart()}\n- Next\n` },
  { name: 'ordered list', wrap: (text) => `1. Item\n2. Item\n\n${indented(fenced(text), '   ')}\n\n3. Item\n` },
  { name: 'nested list', wrap: (text) => `- Outer\n  - Inner\n\n${indented(fenced(text), '    ')}\n  - Next\n` },
  { name: 'quotation', wrap: (text) => `> Said:\n>\n${quoted(fenced(text))}\n>\n> So.\n\nAfter.\n` },
  { name: 'list in a quotation', wrap: (text) => `${quoted(`- Item\n\n${indented(fenced(text), '  ')}`)}\n\nAfter.\n` },
  { name: 'quotation in a list', wrap: (text) => `1. Item\n\n${indented(quoted(fenced(text)), '   ')}\n\nAfter.\n` },
  { name: 'fence indented by one', wrap: (text) => `Before.\n\n${indented(fenced(text), ' ')}\n` },
  { name: 'fence indented by two', wrap: (text) => `Before.\n\n${indented(fenced(text), '  ')}\n` },
  { name: 'fence indented by three', wrap: (text) => `Before.\n\n${indented(fenced(text), '   ')}\n` },
  { name: 'list content behind a tab', wrap: (text) => `1.\tItem\n\n${indented(fenced(text), '\t')}\n\n2.\tNext\n` },
  { name: 'list content behind half a tab', wrap: (text) => `- Item\n\n${indented(fenced(text), '\t')}\n\n- Next\n` },
  { name: 'tildes', wrap: (text) => `Before.\n\n${fenced(text, '~~~')}\n\nAfter.\n` },
  { name: 'long fence', wrap: (text) => `Before.\n\n${fenced(text, '``````', ' Infusion ')}\n\nAfter.\n` },
  { name: 'CR LF', wrap: (text) => `# Note\n\n${fenced(text)}\n\nAfter.\n`.replaceAll('\n', '\r\n') },
  { name: 'lone CR', wrap: (text) => `# Note\n\n- Item\n\n${indented(fenced(text), '  ')}\n`.replaceAll('\n', '\r') },
  { name: 'byte order mark', wrap: (text) => `\uFEFF${fenced(text)}\n` },
  { name: 'front matter', wrap: (text) => `---\ntitle: "\`\`\`infusion"\n\n---\n${fenced(text)}\n` },
  {
    name: 'byte order mark, front matter and CR LF',
    wrap: (text) => `\uFEFF---\ntitle: Note\n---\n\n${quoted(fenced(text))}\n`.replaceAll('\n', '\r\n'),
  },
  { name: 'behind emoji', wrap: (text) => `🧂 Salt 👩🏽‍⚕️\n\n- 💧 Water\n\n${indented(fenced(text), '  ')}\n` },
  { name: 'behind raw HTML', wrap: (text) => `<!--\n\n\`\`\`infusion\nno\n\`\`\`\n\n-->\n${fenced(text)}\n` },
  {
    name: 'behind shown Markdown',
    wrap: (text) => `\`\`\`\`markdown\n\`\`\`infusion\nno\n\n\`\`\`\n\`\`\`\`\n${fenced(text)}\n`,
  },
];

function fenced(text: string, marks = '```', info = 'infusion'): string {
  return `${marks}${info}\n${text}\n${marks}`;
}

function indented(markdown: string, prefix: string): string {
  return markdown.replace(/^(?=.)/gm, prefix);
}

function quoted(markdown: string): string {
  return markdown.replace(/^(?=.)/gm, '> ').replace(/^$/gm, '>');
}
