/**
 * Statements as compact text, for tables of examples.
 *
 * `(add 3x 50mL (sodium bicarbonate | 8.4%))`: words are printed as their keys, a strength stands behind the bar (before
 * it when it was written before the words), `~` begins a tolerance.
 */
import type {
  BlockSyntax,
  Clause,
  CountNode,
  FluidNode,
  NotationFault,
  PartNode,
  QuantityNode,
  Statement,
  SubjectNode,
  ToleranceNode,
  UnknownNode,
  ValueNode,
  Words,
} from '../../src/notation/index.ts';

export function print(block: BlockSyntax): string[] {
  return block.statements.map(statement);
}

/** `syntax missing-unit «10»`, `unknown-unit «mll» mL`. */
export function printFault(fault: NotationFault, text: string): string {
  const at = `«${text.slice(fault.span.start, fault.span.end)}»`;
  switch (fault.code) {
    case 'syntax':
      return `${fault.problem} ${at}`;
    case 'unknown-unit':
      return ['unknown-unit', at, ...(fault.near.length ? [fault.near.join(' ')] : [])].join(' ');
    case 'number-form':
      return ['number-form', fault.form, at, ...(fault.readings.length ? [fault.readings.join(' or ')] : [])].join(' ');
    case 'ratio-strength':
      return ['ratio-strength', at, ...(fault.safe ? [fault.safe] : [])].join(' ');
    case 'naked-decimal':
      return `naked-decimal ${at} ${fault.safe}`;
    case 'accept-without-reason':
      return `accept-without-reason ${at}`;
    case 'reserved-name':
      return `reserved-name ${at}`;
    case 'over-limit':
      return `over-limit ${fault.what} ${fault.limit}`;
  }
}

export function printFluid(node: FluidNode): string {
  return `(${node.parts.map(part).join(' in ')})`;
}

function statement(node: Statement): string {
  switch (node.kind) {
    case 'use':
      return list('use', node.path.text);
    case 'mixture':
    case 'stock':
    case 'patient':
    case 'substance':
      return list(node.kind, node.name.key, node.title && `"${node.title.text}"`);
    case 'addition':
      return list(
        'add',
        node.count && count(node.count),
        node.amount && amount(node.amount),
        printFluid(node.fluid),
        node.vehicle && `into ${quantity(node.vehicle.volume)} ${printFluid(node.vehicle.fluid)}`,
      );
    case 'by-volume':
      return list('by-volume', quantity(node.volume), `"${node.label.text}"`);
    case 'make-up':
      return list('make-up', printFluid(node.fluid), quantity(node.to));
    case 'withdraw':
      return list('withdraw', amount(node.amount));
    case 'exchange':
      return list('exchange', amount(node.amount), printFluid(node.fluid));
    case 'property':
      return list('property', ...node.items.map((item) => `${item.words.key}=${quantity(item.quantity)}`));
    case 'word-property':
      return list('words', node.words.key);
    case 'gives':
      return list(
        'gives',
        ...node.ions.map(({ ion, charge, count }) => `${ion.key}${charge === null ? '' : `[${charge}]`}*${count}`),
      );
    case 'claim':
    case 'target':
      return list(node.kind, subject(node.subject), value(node.value), node.within && `~${tolerance(node.within)}`);
    case 'show':
      return list('show', node.question && `"${node.question.text}"`, ...node.items.map(subject));
    case 'what-if':
      return list('what-if', words(node.change), node.values.map(quantity).join(' or '), ...node.items.map(subject));
    case 'compare':
      return list('compare', ...node.fluids.map(printFluid), 'by', node.observables.map(words).join(', '));
    case 'accept':
      return list('accept', node.code.text, node.reason && `"${node.reason.text}"`);
    case 'give':
      return list(
        'give',
        node.count && count(node.count),
        node.amount && amount(node.amount),
        printFluid(node.fluid),
        node.rate && `at ${quantity(node.rate)}`,
        node.rateOf && `of ${words(node.rateOf)}`,
        ...node.clauses.map(clause),
      );
    case 'unread':
      return list('unread', node.keyword, node.name?.text);
  }
}

function list(...items: readonly (string | null | undefined)[]): string {
  return `(${items.filter((item) => item !== null && item !== undefined).join(' ')})`;
}

function words(node: Words): string {
  return node.key;
}

function part(node: PartNode): string {
  const strength = node.strength && quantity(node.strength);
  const before = node.strength !== null && node.strength.span.start < node.words.span.start;
  return [
    before ? `${strength} |` : null,
    node.ofSolution ? 'of-solution' : null,
    node.elemental ? 'elemental' : null,
    words(node.words),
    node.as && `as ${words(node.as)}`,
    strength !== null && !before ? `| ${strength}` : null,
  ]
    .filter((item) => item !== null)
    .join(' ');
}

function quantity(node: QuantityNode): string {
  const around = node.tolerance && `~${tolerance(node.tolerance)}`;
  return `${node.number.value.toFixed()}${node.unit.unit.symbol}${around ?? ''}`;
}

function tolerance(node: ToleranceNode): string {
  return `${node.number.value.toFixed()}${node.unit.unit.symbol}`;
}

function amount(node: QuantityNode | UnknownNode): string {
  return node.kind === 'unknown' ? `?${node.unit.unit.symbol}` : quantity(node);
}

function count(node: CountNode): string {
  return `${node.number?.value.toFixed() ?? '?'}x`;
}

function subject(node: SubjectNode): string {
  return `<${node.items.map((item) => ('kind' in item ? quantity(item) : words(item))).join(' ')}>`;
}

function value(node: ValueNode): string {
  switch (node.kind) {
    case 'quantity':
      return quantity(node);
    case 'number':
      return node.number.value.toFixed();
    case 'word':
      return `"${words(node.words)}"`;
  }
}

function clause(node: Clause): string {
  switch (node.kind) {
    case 'duration':
    case 'from':
    case 'every':
      return `${node.kind}:${quantity(node.time)}`;
    case 'route':
      return `route:${words(node.route)}`;
    case 'monitored':
      return 'monitored';
    case 'set':
      return `set:${quantity(node.drops)}`;
    default:
      return `${node.kind}:${node.name.key}`;
  }
}
