/** Lines that begin with plain words: properties of stocks, substances and patients, and steps that make up. */
import type { GivenIon, GivesNode, MakeUpNode, PropertyItem, PropertyNode, WordPropertyNode } from './ast.ts';
import { makeUpWords } from './fluid.ts';
import { cover, type Line } from './line.ts';
import { readNumeral } from './numbers.ts';
import { readQuantity } from './quantity.ts';
import { readMakeUp } from './steps.ts';

/** A line whose first word begins no statement. */
export function readWordsFirst(line: Line): MakeUpNode | PropertyNode | WordPropertyNode | null {
  const numbers = line.tokens.flatMap(({ kind }, index) => (kind === 'number' ? [index] : []));
  const lastNumber = numbers.at(-1) ?? -1;
  for (let index = 0; index < line.tokens.length; index += 1) {
    const words = makeUpWords(line, index);
    if (words === 0) continue;
    if (line.tokens[index + words]?.kind === 'number') return readMakeUp(line);
    if (lastNumber < index) return line.fail('missing-volume-after-to', line.spanOf(index, index + words));
  }
  return lastNumber < 0 ? readWordProperty(line) : readProperty(line);
}

function readWordProperty(line: Line): WordPropertyNode | null {
  if (line.tokens.length < 2 || line.tokens.some((token) => token.word === '')) {
    return line.fail('unknown-statement', line.here());
  }
  line.at = line.tokens.length;
  return { kind: 'word-property', words: line.words(0, line.at), ...line.place };
}

/** `loss stomach 60 mL/h sodium 60 mmol/L`. */
function readProperty(line: Line): PropertyNode | null {
  const first = readItem(line);
  if (first === null) return null;
  const items: [PropertyItem, ...PropertyItem[]] = [first];
  while (line.word() !== '' && line.tokens.slice(line.at).some(({ kind }) => kind === 'number')) {
    const item = readItem(line);
    if (item === null) return null;
    items.push(item);
  }
  return { kind: 'property', items, ...line.place };
}

function readItem(line: Line): PropertyItem | null {
  const start = line.at;
  while (line.word() !== '') line.at += 1;
  if (line.at === start || line.peek()?.kind !== 'number') return line.fail('unknown-statement', line.spanOf(0, 1));
  const words = line.words(start, line.at);
  const last = line.at + 2 >= line.tokens.length;
  const quantity = readQuantity(line, last ? 'nothing' : 'words');
  return quantity === null ? null : { words, quantity };
}

/** `gives sodium 2, thiosulfate 2- 1`; after the first word. */
export function readGives(line: Line): GivesNode | null {
  const first = readIon(line);
  if (first === null) return null;
  const ions: [GivenIon, ...GivenIon[]] = [first];
  while (line.peek()?.kind === 'comma') {
    line.at += 1;
    const ion = readIon(line);
    if (ion === null) return null;
    ions.push(ion);
  }
  return { kind: 'gives', ions, ...line.place };
}

function readIon(line: Line): GivenIon | null {
  const before = line.last();
  const start = line.at;
  while (line.word() !== '') line.at += 1;
  if (line.at === start) return line.fail('missing-name', before);
  const ion = line.words(start, line.at);

  let charge: number | null = null;
  const sign = line.peek(1);
  if (line.peek()?.kind === 'number' && sign?.glued && (sign.text === '+' || sign.text === '-')) {
    const size = readWhole(line);
    if (size === null) return null;
    charge = sign.text === '-' ? -size : size;
    line.at += 1;
  }
  if (line.peek()?.kind !== 'number') return line.fail('missing-value', ion.span);
  const count = readWhole(line);
  return count === null ? null : { span: cover(ion.span, line.last()), ion, charge, count };
}

/** A whole number above zero. */
function readWhole(line: Line): number | null {
  const numeral = readNumeral(line.peek()!.text);
  if (numeral.kind === 'beyond') {
    return line.stop({ code: 'over-limit', span: line.here(), what: numeral.what, limit: numeral.limit });
  }
  if (numeral.kind === 'malformed') {
    const { form, readings } = numeral;
    return line.stop({ code: 'number-form', span: line.here(), form, found: line.text(line.here()), readings });
  }
  if (!numeral.value.isInteger() || numeral.value.lte(0)) return line.fail('missing-value', line.here());
  line.at += 1;
  return numeral.value.toNumber();
}
