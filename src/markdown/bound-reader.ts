import { type Definition, definitionsIn, type InlineStretch, readInline } from './inline.ts';
import { pairMarks } from './marked-table.ts';
import type { BoundSlip, BoundText, Link, SourceSpan } from './note-text.ts';
import { PlacedText } from './placed-text.ts';

const NOTHING: BoundText = { links: [], tables: [], slips: [] };
/** What a link or a mark must hold somewhere. */
const MAY_BIND = /infusion:|\/infusion/i;
const SCHEME = /^infusion:/i;

/** The parser's time grows with the square of the marks in one stretch; a stretch with more is not looked through. */
const MOST_MARKS = 4000;
const MARKS = /[[\]*_`<!&]/g;

/** Finds links and marks again and again while a note is edited; what it knew of unchanged stretches is kept. */
export class BoundReader {
  #definitions: ReadonlyMap<string, readonly Definition[]> = new Map();
  #inline: ReadonlyMap<string, InlineStretch> = new Map();

  read(source: string, stretches: readonly SourceSpan[]): BoundText {
    if (!MAY_BIND.test(source)) return NOTHING;
    const definitions = this.#definitionsOf(source, stretches);
    const refersAnywhere = [...definitions.values()].some(({ url }) => SCHEME.test(url));
    const known = this.#inline;
    const now = new Map<string, InlineStretch>();
    this.#inline = now;

    const links: Link[] = [];
    const slips: BoundSlip[] = [];
    const marks: InlineStretch['marks'][number][] = [];
    for (const { start, end } of stretches) {
      const text = source.slice(start, end);
      if (!MAY_BIND.test(text) && !(refersAnywhere && text.includes('['))) continue;
      // What is defined elsewhere makes links here, and a link within brackets keeps these from being one.
      const defined = labelsIn(text).filter((label) => definitions.has(label));
      if (isBeyondReading(text)) {
        const refers = defined.some((label) => SCHEME.test(definitions.get(label)!.url));
        const at = { start, end: lineEndFrom(source, start) };
        if (refers || MAY_BIND.test(text)) slips.push({ at, problem: 'too-many-marks' });
        continue;
      }
      const key = `${defined.join('\n')}\n\n${text}`;
      const found = now.get(key) ?? known.get(key) ?? readInline(text, defined);
      now.set(key, found);
      const placed = (span: SourceSpan) => ({ start: start + span.start, end: start + span.end });
      for (const { span, url, targetSpan, label, text: seen } of found.links) {
        const definition = label === null ? null : definitions.get(label);
        const target = definition?.url ?? url;
        const at = definition?.span ?? (targetSpan && placed(targetSpan));
        if (!at || !SCHEME.test(target)) continue;
        links.push({
          span: placed(span),
          text: new PlacedText(seen, start),
          target: target.replace(SCHEME, ''),
          targetSpan: at,
        });
      }
      for (const { at, problem } of found.slips) slips.push({ at: placed(at), problem });
      for (const mark of found.marks) {
        const parent = mark.parent === null ? null : start + mark.parent;
        const statement = mark.statement && { ...mark.statement, start: start + mark.statement.start };
        marks.push({ span: placed(mark.span), parent, statement });
      }
    }
    const { tables, unpaired } = pairMarks(source, marks);
    return { links, tables, slips: [...slips, ...unpaired] };
  }

  /** By label; of several with one label the first holds (CommonMark 0.31.2, section 6.3). */
  #definitionsOf(source: string, stretches: readonly SourceSpan[]): ReadonlyMap<string, Definition> {
    const known = this.#definitions;
    const now = new Map<string, readonly Definition[]>();
    this.#definitions = now;
    const byLabel = new Map<string, Definition>();
    for (const { start, end } of stretches) {
      const text = source.slice(start, end);
      if (!text.includes(']:')) continue;
      const withTargets = MAY_BIND.test(text) && !isBeyondReading(text);
      const found = now.get(text) ?? known.get(text) ?? definitionsIn(text, withTargets);
      now.set(text, found);
      for (const { label, url, span } of found) {
        if (byLabel.has(label)) continue;
        byLabel.set(label, { label, url, span: { start: start + span.start, end: start + span.end } });
      }
    }
    return byLabel;
  }
}

function isBeyondReading(text: string): boolean {
  return (text.match(MARKS)?.length ?? 0) > MOST_MARKS;
}

/** Everything in brackets that may refer to a definition, as labels are compared. */
function labelsIn(text: string): readonly string[] {
  const labels = new Set<string>();
  for (const { 1: inside } of text.matchAll(/\[((?:[^[\]\\]|\\[\s\S])+)(?=\])/g)) labels.add(labelKey(inside!));
  // A label over two lines of a quotation has the quotation's mark in it.
  for (const label of [...labels]) labels.add(label.replace(/ (?:> ?)+/g, ' '));
  return [...labels];
}

/** As the parser compares them. */
function labelKey(label: string): string {
  return label
    .replace(/[\t\n\r ]+/g, ' ')
    .trim()
    .toLowerCase()
    .toUpperCase()
    .toLowerCase();
}

function lineEndFrom(source: string, start: number): number {
  const end = source.slice(start).search(/[\r\n]/);
  return end < 0 ? source.length : start + end;
}
