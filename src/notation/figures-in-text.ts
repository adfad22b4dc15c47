/** Quantities among any words, such as those of a link. */
import type { NotationFault, NumberNode, QuantityNode } from './ast.ts';
import { figureAmongWords } from './figure.ts';
import { lexLine } from './lexer.ts';
import { LIMITS } from './limits.ts';
import { Line } from './line.ts';
import { normalise } from './normalise.ts';

export interface FiguresInText {
  readonly quantities: readonly QuantityNode[];
  /** Numbers without a unit. */
  readonly numbers: readonly NumberNode[];
  /** The first number that cannot be read. */
  readonly fault: NotationFault | null;
}

/** Marks of sentences say nothing here; those between digits stay. */
const PUNCTUATION = /["“”„‟#()[\]{}~≈]|[.,;:!?](?=\s|$)/g;

/** Reads the quantities of one line of prose; what stands behind the bounds of a line is left out. */
export function figuresInText(text: string): FiguresInText {
  const normal = normalise(text.slice(0, LIMITS.lineLength))
    .replace(/[\r\n]/g, ' ')
    .replace(PUNCTUATION, ' ');
  const line = new Line(text, lexLine(normal, 0, normal.length), { span: { start: 0, end: text.length }, line: 0 });
  const quantities: QuantityNode[] = [];
  const numbers: NumberNode[] = [];
  for (let index = 0; index < line.tokens.length; ) {
    if (line.tokens[index]!.kind !== 'number') {
      index += 1;
      continue;
    }
    const figure = figureAmongWords(line, index);
    if (figure.kind === 'fault') return { quantities, numbers, fault: figure.fault };
    if (figure.kind === 'quantity') quantities.push(figure.node);
    else numbers.push(figure.number);
    index = figure.next;
  }
  return { quantities, numbers, fault: null };
}
