/** JSON whose numbers stand digit for digit as they were given: no JavaScript number lies between. */

/** A number by its digits: `0.9`, `-118.7`, `16`. */
export class Exact {
  constructor(readonly digits: string) {}
}

/** `undefined` is left out with its key. */
export type Json = string | boolean | Exact | readonly Json[] | { readonly [key: string]: Json | undefined };

/** Two spaces a level, keys in the order given, a line end behind the last line. */
export function jsonText(value: Json): string {
  return `${written(value, '')}\n`;
}

function written(value: Json, indent: string): string {
  if (value instanceof Exact) return value.digits;
  if (typeof value !== 'object') return JSON.stringify(value);
  const deeper = `${indent}  `;
  const [start, end, items] = isList(value)
    ? ['[', ']', value.map((item) => written(item, deeper))]
    : ['{', '}', membersOf(value, deeper)];
  return items.length === 0 ? start + end : `${start}\n${deeper}${items.join(`,\n${deeper}`)}\n${indent}${end}`;
}

function membersOf(value: { readonly [key: string]: Json | undefined }, indent: string): readonly string[] {
  return Object.entries(value).flatMap(([key, of]) =>
    of === undefined ? [] : [`${JSON.stringify(key)}: ${written(of, indent)}`],
  );
}

function isList(value: object): value is readonly Json[] {
  return Array.isArray(value);
}
