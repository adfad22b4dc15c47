/** Reads entries of a policy one by one: what is wrong is reported at its place and gives null. */
import { atMost, type Decimal, inUnit, nearAmong, type Unit } from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { NotationFault } from '../../notation/ast.ts';
import { parseQuantity } from '../../notation/index.ts';
import type { LocatedPolicyFault, PolicyProblem, Wanted } from './faults.ts';
import type { JsonMember, JsonNode } from './json.ts';

/** A source is a title, not a page. */
const LONGEST_TEXT = 200;
/** After so many nobody reads on. */
const MOST_FAULTS = 100;

export class Entries {
  readonly faults: LocatedPolicyFault[] = [];

  report(at: SourceSpan, problem: PolicyProblem): null {
    if (this.faults.length < MOST_FAULTS) this.faults.push({ at, fault: { code: 'policy-invalid', ...problem } });
    return null;
  }

  /** The members of an object by their key. A key given twice counts as not given: which is meant cannot be known. */
  members(node: JsonNode, of: string | null, example: string): ReadonlyMap<string, JsonMember> {
    if (node.kind !== 'object') {
      this.wrongType(node, of, 'object', example);
      return new Map();
    }
    const members = new Map<string, JsonMember>();
    const twice = new Set<string>();
    for (const member of node.members) {
      const { key, keyAt } = member;
      if (members.has(key)) {
        this.report(keyAt, { problem: 'duplicate-key', key: shortened(key) });
        twice.add(key);
      } else members.set(key, member);
    }
    for (const key of twice) members.delete(key);
    return members;
  }

  /** The same, of which every key must be one of `keys`. */
  fixedMembers(
    node: JsonNode,
    of: string | null,
    keys: readonly string[],
    example: string,
  ): ReadonlyMap<string, JsonMember> {
    const members = this.members(node, of, example);
    for (const { key, keyAt } of members.values()) {
      if (keys.includes(key)) continue;
      this.report(keyAt, { problem: 'unknown-key', key: shortened(key), of, near: nearAmong(key, keys) });
    }
    return members;
  }

  text(node: JsonNode, of: string, example: string): string | null {
    if (node.kind !== 'text') return this.wrongType(node, of, 'text', example);
    const text = node.text.trim();
    if (text === '') return this.report(node.at, { problem: 'empty', of });
    if (text.length > LONGEST_TEXT) return this.report(node.at, { problem: 'too-long', of, most: LONGEST_TEXT });
    return text;
  }

  /** Paths of notes, each with its place. */
  paths(node: JsonNode, of: string, example: string): readonly { path: string; at: SourceSpan }[] | null {
    if (node.kind !== 'list') return this.wrongType(node, of, 'list-of-texts', example);
    return node.items.flatMap((item) => {
      const path = this.text(item, of, example);
      return path === null ? [] : [{ path, at: item.at }];
    });
  }

  truth(node: JsonNode, of: string): boolean | null {
    return node.kind === 'truth' ? node.value : this.wrongType(node, of, 'truth', 'true');
  }

  /** One of a few words, as they are written. */
  word<W extends string>(node: JsonNode, of: string, words: readonly W[]): W | null {
    if (node.kind !== 'text') return this.wrongType(node, of, 'text', `"${words[0]}"`);
    const word = words.find((known) => known === node.text);
    if (word) return word;
    const found = shortened(node.text);
    return this.report(node.at, { problem: 'unknown-word', of, found, near: nearAmong(node.text, words), words });
  }

  /** A quantity above zero, told in `unit`. A percent is no mass per volume here. */
  quantity(node: JsonNode, of: string, unit: Unit, example: string, most: Decimal | null = null): Decimal | null {
    if (node.kind !== 'text') return this.wrongType(node, of, 'quantity', example);
    const { at, text } = node;
    const found = shortened(text);
    const read = parseQuantity(text);
    if (!read.ok) return this.report(at, misread(read.fault, of, found, example));
    const { unit: written } = read.quantity;
    const value = written.percent === unit.percent ? inUnit(read.quantity, unit) : null;
    if (!value) {
      const { dimension: got } = written;
      return this.report(at, { problem: 'wrong-dimension', of, found, got, unit: unit.symbol });
    }
    if (value.lte(0)) return this.report(at, { problem: 'not-above-zero', of, found });
    if (most && !atMost(value, most)) return this.report(at, { problem: 'above-most', of, found, most });
    return value;
  }

  /** A day of the calendar, `2026-03-01`. */
  date(node: JsonNode, of: string): string | null {
    if (node.kind !== 'text') return this.wrongType(node, of, 'text', '"2026-03-01"');
    return isDay(node.text) ? node.text : this.report(node.at, { problem: 'no-date', of, found: shortened(node.text) });
  }

  private wrongType({ at }: JsonNode, of: string | null, wanted: Wanted, example: string): null {
    return this.report(at, { problem: 'wrong-type', of, wanted, example });
  }
}

function misread(fault: NotationFault | null, of: string, found: string, example: string): PolicyProblem {
  switch (fault?.code) {
    case 'unknown-unit':
      return { problem: 'unknown-unit', of, found: shortened(fault.found), near: fault.near };
    case 'number-form':
      return { problem: 'number-form', found, readings: fault.readings };
    case 'syntax':
      return { problem: fault.problem === 'missing-unit' ? 'no-unit' : 'no-quantity', of, found, example };
    default:
      return { problem: 'no-quantity', of, found, example };
  }
}

function isDay(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  if (!year || !month || !day) return false;
  const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  return date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
}

/** Keys and texts of any length are told as far as a line holds. */
function shortened(text: string): string {
  const plain = text.replace(/\s+/g, ' ').trim();
  return plain.length > 60 ? `${plain.slice(0, 59)}…` : plain;
}
