/** A sheet as a Markdown document that reads well as it stands: tables in columns, no more backslashes than needed. */
import type { Sheet, SheetBlock } from '../text/sheet.ts';
import type { Inline } from '../text/tree.ts';
import { oneLine } from './markdown-escape.ts';
import { textWidth } from './text-width.ts';

/** Ends in a line end. */
export function worksheetMarkdown({ title, lead, sections }: Sheet): string {
  const blocks = [
    `# ${text(title)}`,
    ...lead.map(blockMarkdown),
    ...sections.flatMap(({ heading, blocks: below }) => [`## ${text(heading)}`, ...below.map(blockMarkdown)]),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function blockMarkdown(block: SheetBlock): string {
  switch (block.kind) {
    case 'paragraph':
      return inline(block.inline);
    case 'list':
      return block.items.map((item) => `- ${inline(item)}`).join('\n');
    case 'table':
      return tableMarkdown([block.columns.map(({ title }) => title), ...block.rows]);
  }
}

/** The first row is the table's head. */
function tableMarkdown(rows: readonly (readonly string[])[]): string {
  const cells = rows.map((row) => row.map((cell) => text(cell)));
  const [head = [], ...body] = cells;
  const widths = head.map((_, column) => Math.max(3, ...cells.map((row) => textWidth(row[column] ?? ''))));
  const line = (row: readonly string[]) =>
    `| ${widths.map((width, column) => (row[column] ?? '') + ' '.repeat(width - textWidth(row[column] ?? ''))).join(' | ')} |`;
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...body.map(line)].join('\n');
}

function inline(runs: Inline): string {
  const weighted = runs.map(({ text: of, weight }) => {
    const [, before = '', words = '', after = ''] = /^(\s*)(.*?)(\s*)$/su.exec(of) ?? [];
    return `${before}${weight === 'strong' && words !== '' ? `**${text(words)}**` : text(words)}${after}`;
  });
  return opening(weighted.join('').trim());
}

const NAMED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '`': '&#96;' };

/**
 * The one place where text is made inert (CommonMark 0.31.2, sections 2.4 and 2.5): marks that mean something everywhere; a
 * point and a colon where a renderer could make a link of a bare address (GFM 0.29, section 6.9).
 */
function text(words: string): string {
  return oneLine(words)
    .trim()
    .replace(/[\\*_[\]|~$@]|[:.](?=[^\s\d])|[&<>`]/g, (mark) => NAMED[mark] ?? `\\${mark}`);
}

/** What would open a block at the start of a line. */
function opening(inert: string): string {
  return inert.replace(/^(?=[#=+-])/, '\\').replace(/^(\d+)(?=[.)](?:\s|$))/, '$1\\');
}
