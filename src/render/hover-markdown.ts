import type { Cell, Column, Inline, Run, Tree } from '../text/tree.ts';
import { svgDataUri } from './data-uri.ts';
import { decimalPadding } from './decimal-column.ts';
import { figureSvg } from './figure-svg.ts';
import { imageDescription, markdownText, oneLine } from './markdown-escape.ts';
import { isWebAddress } from './web-address.ts';

interface HoverOptions {
  /** Whether figures are drawn, as images with a data URI; otherwise the sentence of each stands for it. */
  readonly pictures: boolean;
}

/** A card as GitHub-flavoured Markdown for the editor's hover; nothing is raw HTML. */
export function hoverMarkdown(tree: readonly Tree[], options: HoverOptions = { pictures: true }): string {
  return tree
    .map((block) => blockMarkdown(block, options))
    .filter((block) => block !== '')
    .join('\n\n');
}

function blockMarkdown(block: Tree, options: HoverOptions): string {
  switch (block.kind) {
    case 'heading': {
      const heading = inlineMarkdown([{ text: block.text, weight: 'strong' }]);
      return block.aside === undefined ? heading : `${heading} · ${markdownText(block.aside)}`;
    }
    case 'paragraph':
      return inlineMarkdown(block.inline);
    case 'list':
      return block.items
        .map(inlineMarkdown)
        .filter((item) => item !== '')
        .map((item) => `- ${item}`)
        .join('\n');
    case 'table':
      return [captionOf(block), tableMarkdown(block.columns, block.rows, options)].filter(Boolean).join('\n\n');
    case 'figure':
      if (!options.pictures) return inlineMarkdown([{ text: block.figure.sentence }]);
      return `![${imageDescription(block.figure.sentence)}](${svgDataUri(figureSvg(block.figure))})`;
    case 'written':
      return block.text.split('\n').map(markdownText).join('\\\n');
    case 'finding':
      return inlineMarkdown(block.inline);
    case 'folded':
      return [inlineMarkdown([{ text: block.title, weight: 'strong' }]), hoverMarkdown(block.body, options)].join(
        '\n\n',
      );
    case 'rule':
      return '---';
  }
}

function captionOf({ caption }: Extract<Tree, { kind: 'table' }>): string {
  return caption === undefined ? '' : inlineMarkdown([{ text: caption }]);
}

function inlineMarkdown(inline: Inline): string {
  const runs = inline.map((run) => ({ ...run, text: oneLine(run.text) }));
  return runs
    .map((run, index) => runMarkdown(run, runs[index - 1], runs[index + 1]))
    .join('')
    .trim();
}

function runMarkdown(run: Run, previous: Run | undefined, next: Run | undefined): string {
  const [, before = '', text = '', after = ''] = /^(\s*)(.*?)(\s*)$/u.exec(run.text) ?? [];
  if (text === '') return before && ' ';
  const escaped = markdownText(text);
  const linked = run.href !== undefined && isWebAddress(run.href) ? `[${escaped}](${run.href})` : escaped;
  const opens = stands(before, previous, /\s$/u, /^[\p{L}\p{N}]/u.test(text));
  const closes = stands(after, next, /^\s/u, /[\p{L}\p{N}]$/u.test(text));
  const marks = run.weight === undefined || !opens || !closes ? '' : run.weight === 'strong' ? '**' : '*';
  return `${before && ' '}${marks}${linked}${marks}${after && ' '}`;
}

/**
 * Whether a mark of weight would be read as one here: at white space or the end of the line always, inside a word only
 * between letters (CommonMark 0.31.2, section 6.2). Elsewhere the words come without their weight.
 */
function stands(space: string, neighbour: Run | undefined, spaceThere: RegExp, atLetter: boolean): boolean {
  if (space !== '' || neighbour === undefined || spaceThere.test(neighbour.text)) return true;
  return atLetter && neighbour.weight === undefined;
}

/**
 * U+2007, as wide as a digit; named, because renderers trim white space from cells. What does not draw pictures shows
 * such a name as it stands.
 */
const FIGURE_SPACE = { named: '&#8199;', itself: '\u2007' };

function tableMarkdown(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  { pictures }: HoverOptions,
): string {
  const space = pictures ? FIGURE_SPACE.named : FIGURE_SPACE.itself;
  const padding = columns.map(({ align }, index) =>
    align === 'number' ? decimalPadding(rows.map((row) => row[index] ?? '')) : rows.map(() => 0),
  );
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    line(columns.map(({ title }) => markdownText(title))),
    line(columns.map(() => '---')),
    ...rows.map((row, y) => line(columns.map((_, x) => space.repeat(padding[x]![y]!) + markdownText(row[x] ?? '')))),
  ].join('\n');
}
