/** How the steps and orders of a block are written: forms that are read, and that people misread. */
import { findSolute, findUnit, soluteNames } from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { BlockSyntax, FluidNode, Span, Statement, Words } from '../notation/ast.ts';
import type { Located, NoteFault } from './faults.ts';
import { figuresIn, safeNumber, safeUnit, withoutTrailingZero } from './safe-figures.ts';
import { isStep } from './steps.ts';

/**
 * Lines that could not be read are left alone: their fault says what is wrong. Claims and targets are, since their digits
 * say how exactly a number is meant, and so are stocks, substances and patients: they state labels and measurements.
 */
export function orderWording({ syntax, block }: { syntax: BlockSyntax; block: Block }): readonly Located[] {
  return syntax.statements.flatMap((node) => {
    if (!isStep(node) && node.kind !== 'give') return [];
    return [...figureFaults(block.text, node.span), ...symbolFaults(node)].map(({ span, fault }) => ({
      at: block.place(span),
      fault,
    }));
  });
}

interface Misread {
  readonly span: Span;
  readonly fault: NoteFault;
}

/** Titles and labels are the author's own. */
const QUOTED = /["“”„‟][^"“”„‟]*["“”„‟]?/g;

function figureFaults(text: string, { start: from, end: to }: Span): readonly Misread[] {
  const written = text.slice(from, to).replace(QUOTED, (quoted) => ' '.repeat(quoted.length));
  const faults: Misread[] = [];
  for (const { start, number, space, unit, end } of figuresIn(written)) {
    const afterNumber = start + number.length;
    const place = (first: number, last: number) => ({
      span: { start: from + first, end: from + last },
      found: written.slice(first, last),
    });
    const shorter = withoutTrailingZero(number);
    if (shorter !== null) {
      const { span, found } = place(start, afterNumber);
      faults.push({ span, fault: { code: 'trailing-zero', found, safe: shorter } });
    }
    if (unit === '' || !findUnit(unit)) continue;
    const safe = safeUnit(unit);
    if (space === '' && /^[\p{L}µ]/u.test(unit) && number !== '?') {
      const { span, found } = place(start, end);
      faults.push({
        span,
        fault: { code: 'number-run-into-unit', found, safe: `${safeNumber(number)} ${safe?.safe ?? unit}` },
      });
    } else if (safe) {
      const { span, found } = place(end - unit.length, end);
      faults.push({ span, fault: { code: 'unsafe-abbreviation', kind: safe.kind, found, safe: safe.safe } });
    }
  }
  return faults;
}

/** `KCl`, `MgSO4`, `C6H14O6`, by their lower case: at least two capital letters, or figures. */
const SYMBOLS: ReadonlySet<string> = new Set(
  soluteNames()
    .filter((name) => /^(?=.*(?:\d|[A-Z].*[A-Z]))(?:[A-Z][a-z]?\d*)+$/.test(name))
    .map((name) => name.toLowerCase()),
);

function symbolFaults(node: Statement): readonly Misread[] {
  return solutesOf(node).flatMap((words) => {
    const safe = spelledOut(words);
    if (safe === null) return [];
    return [{ span: words.span, fault: { code: 'unsafe-abbreviation', kind: 'symbol', found: words.text, safe } }];
  });
}

function solutesOf(node: Statement): readonly Words[] {
  const fluids: FluidNode[] = [];
  if ('fluid' in node) fluids.push(node.fluid);
  if (node.kind === 'addition' && node.vehicle) fluids.push(node.vehicle.fluid);
  const words = fluids.flatMap(({ parts }) =>
    parts.flatMap((part) => (part.as ? [part.words, part.as] : [part.words])),
  );
  return node.kind === 'give' && node.rateOf ? [...words, node.rateOf] : words;
}

/** The same substance in words; null where no symbol is written. */
function spelledOut({ text, key }: Words): string | null {
  const [symbol] = text.split(' ').filter((word) => SYMBOLS.has(word.replace(/[·.∙⋅•*]\d*H2O$/i, '').toLowerCase()));
  const meant = symbol ? findSolute(key) : null;
  if (!symbol || !meant) return null;
  const { substance, by, alternatives } = meant;
  const family = text.replace(symbol, substance.family);
  const same = findSolute(family);
  const means = same?.substance === substance && same.by === by && same.alternatives.length === alternatives.length;
  return means ? family : substance.name;
}
