/** What a lesson asks of its readers: a question before its answer, and results under other figures. */
import type { QuantityNode, ShowNode, WhatIfNode } from './ast.ts';
import { readItems } from './claims.ts';
import { LIMITS } from './limits.ts';
import type { Line } from './line.ts';
import { readAmount } from './quantity.ts';

/** `ask "QUESTION" show [NAME] OBSERVABLE, …`; after the first word. */
export function readAsk(line: Line): ShowNode | null {
  if (line.peek()?.kind !== 'string') return line.fail('missing-question', line.done ? line.last() : line.here());
  const question = line.title();
  if (question.text.trim() === '') return line.fail('missing-question', question.span);
  const items = readShown(line);
  return items && { kind: 'show', question, items, ...line.place };
}

/** `what if [NAME] FIGURE QUANTITY, … show [NAME] OBSERVABLE, …`; after the first word. */
export function readWhatIf(line: Line): WhatIfNode | null {
  if (!line.eat('if')) return line.fail('missing-if', line.done ? line.last() : line.here());
  const start = line.at;
  while (line.word() !== '' && line.word() !== 'show') line.at += 1;
  if (line.at === start) return line.fail('missing-change', line.done ? line.last() : line.here());
  const change = line.words(start, line.at);
  const first = readValue(line);
  if (first === null) return null;
  const values: [QuantityNode, ...QuantityNode[]] = [first];
  while (readOr(line)) {
    const value = readValue(line);
    if (value === null) return null;
    if (values.length === LIMITS.alternatives) {
      return line.stop({
        code: 'over-limit',
        span: value.span,
        what: 'alternatives',
        limit: LIMITS.alternatives,
      });
    }
    values.push(value);
  }
  const items = readShown(line);
  return items && { kind: 'what-if', change, values, items, ...line.place };
}

function readShown(line: Line): ShowNode['items'] | null {
  return line.eat('show') ? readItems(line) : line.fail('missing-show', line.done ? line.last() : line.here());
}

function readValue(line: Line): QuantityNode | null {
  if (line.done) return line.fail('missing-amount', line.last());
  const value = readAmount(line, 'nothing');
  return value?.tolerance ? line.fail('unexpected-rest', value.tolerance.span) : value;
}

/** `,`, `or`, `, or`. */
function readOr(line: Line): boolean {
  if (line.peek()?.kind !== 'comma') return line.eat('or');
  line.at += 1;
  line.eat('or');
  return true;
}
