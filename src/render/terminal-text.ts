import type { Cell, Column, Inline, Tree } from '../text/tree.ts';
import { decimalPadding } from './decimal-column.ts';
import { terminalSafe } from './terminal-safe.ts';
import { textWidth } from './text-width.ts';

export interface TerminalOptions {
  readonly colour: boolean;
  /** Columns in which paragraphs are wrapped. Tables are never broken or cut. */
  readonly width: number;
}

/** A tree for a terminal; ends in a line end. */
export function terminalText(tree: readonly Tree[], options: TerminalOptions): string {
  return tree.map((block) => `${blockLines(block, options).join('\n')}\n`).join('\n');
}

function blockLines(block: Tree, options: TerminalOptions): string[] {
  switch (block.kind) {
    case 'heading':
      return [headingLine(terminalSafe(block.text), terminalSafe(block.aside ?? ''), options)];
    case 'paragraph':
      return wrapped(block.inline, options);
    case 'list':
      return block.items.flatMap((item) =>
        wrapped(item, { ...options, width: options.width - 2 }).map(
          (line, index) => (index === 0 ? '- ' : '  ') + line,
        ),
      );
    case 'table':
      return [
        ...(block.caption === undefined ? [] : wrapped([{ text: block.caption }], options)),
        ...tableLines(block.columns, block.rows),
      ];
    case 'figure':
      return wrapped([{ text: block.figure.sentence }], options);
    case 'written':
      return block.text.split('\n').map((line) => terminalSafe(line));
    case 'finding':
      return wrapped(block.inline, options);
    case 'folded':
      return [
        weighted(terminalSafe(block.title), 'strong', options.colour),
        ...block.body.flatMap((inner) => blockLines(inner, options)),
      ];
    case 'rule':
      return ['─'.repeat(Math.max(options.width, 0))];
  }
}

/** The aside stands at the right edge, or two spaces behind a long heading. */
function headingLine(text: string, aside: string, { colour, width }: TerminalOptions): string {
  const heading = weighted(text, 'strong', colour);
  if (aside === '') return heading;
  const gap = Math.max(width - textWidth(text) - textWidth(aside), 2);
  return heading + ' '.repeat(gap) + aside;
}

type Weight = Inline[number]['weight'];

function weighted(text: string, weight: Weight, colour: boolean): string {
  if (!colour || weight === undefined) return text;
  return `\x1b[${weight === 'strong' ? 1 : 2}m${text}\x1b[22m`;
}

/** Words set line by line; a word longer than the line has one of its own. */
function wrapped(inline: Inline, { colour, width }: TerminalOptions): string[] {
  const lines: Word[][] = [[]];
  let used = 0;
  for (const word of wordsOf(inline)) {
    const length = textWidth(word.text);
    if (word.space && used > 0 && used + 1 + length > width) {
      lines.push([]);
      used = 0;
    }
    used += length + (word.space && used > 0 ? 1 : 0);
    lines.at(-1)!.push(word);
  }
  return lines.map((words) => lineOf(words, colour));
}

/** Neighbours of one weight share its marks. */
function lineOf(words: readonly Word[], colour: boolean): string {
  const stretches: { text: string; weight: Weight }[] = [];
  for (const [index, { text, weight, space }] of words.entries()) {
    const last = stretches.at(-1);
    const spaced = space && index > 0 ? ` ${text}` : text;
    if (last !== undefined && last.weight === weight) last.text += spaced;
    else stretches.push({ text: spaced, weight });
  }
  return stretches.map(({ text, weight }) => weighted(text, weight, colour)).join('');
}

interface Word {
  readonly text: string;
  readonly weight: Weight;
  /** White space stands before it. */
  readonly space: boolean;
}

function wordsOf(inline: Inline): Word[] {
  return inline.flatMap(({ text, weight, href }, index) => {
    const shown = terminalSafe(href === undefined || href === text ? text : `${text} (${href})`);
    const before = inline[index - 1]?.text ?? '';
    return Array.from(shown.matchAll(/\S+/g), ({ 0: word, index: at }) => ({
      text: word,
      weight,
      space: at > 0 || /\s$/.test(before),
    }));
  });
}

function tableLines(columns: readonly Column[], rows: readonly (readonly Cell[])[]): string[] {
  const set = columns.map(({ title, align }, index) => {
    const cells = rows.map((row) => terminalSafe(row[index] ?? ''));
    const padding = align === 'number' ? decimalPadding(cells) : cells.map(() => 0);
    const column = [terminalSafe(title), ...cells.map((cell, row) => ' '.repeat(padding[row]!) + cell)];
    const width = Math.max(...column.map(textWidth));
    return column.map((cell) => cell + ' '.repeat(width - textWidth(cell)));
  });
  const lines = [null, ...rows].map((_, line) =>
    set
      .map((column) => column[line])
      .join('  ')
      .trimEnd(),
  );
  return lines[0] === '' ? lines.slice(1) : lines;
}
