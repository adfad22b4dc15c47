import { type Definition, definitionsIn, type InlineStretch, readInline } from './inline.ts';
import { pairMarks } from './marked-table.ts';
import type { BoundSlip, BoundText, Link, SourceSpan } from './note-text.ts';
import { PlacedText } from './placed-text.ts';
import { type PlacedStretch, placed, type Stretch, type Stretches } from './stretches.ts';

const NOTHING: BoundText = { links: [], tables: [], slips: [] };
const SCHEME = /^infusion:/i;

/** The parser's time grows with the square of the marks in one stretch; a stretch with more is not looked through. */
const MOST_MARKS = 4000;
const MARKS = /[[\]*_`<!&]/g;

/** What is known of one stretch by its text alone, looked for when it is asked for. */
class KnownStretch {
  /** What was found in it when these labels were defined. */
  #inline: { readonly defined: string; readonly found: InlineStretch } | null = null;
  #labels: readonly string[] | null = null;
  #definitions: readonly Definition[] | null = null;
  #beyond: boolean | null = null;

  constructor(readonly mayBind: boolean) {}

  isBeyondReading(text: string): boolean {
    this.#beyond ??= (text.match(MARKS)?.length ?? 0) > MOST_MARKS;
    return this.#beyond;
  }

  labels(text: string): readonly string[] {
    this.#labels ??= text.includes('[') ? labelsIn(text) : [];
    return this.#labels;
  }

  definitions(text: string): readonly Definition[] {
    this.#definitions ??= text.includes(']:') ? definitionsIn(text, this.mayBind && !this.isBeyondReading(text)) : [];
    return this.#definitions;
  }

  inline(text: string, labels: readonly string[]): InlineStretch {
    const defined = labels.join('\n');
    if (this.#inline?.defined !== defined) this.#inline = { defined, found: readInline(text, labels) };
    return this.#inline.found;
  }
}

/** Finds links and marks again and again while a note is edited; what it knew of stretches that stay is kept with them. */
export class BoundReader {
  readonly #known = new WeakMap<Stretch, KnownStretch>();

  read(source: string, all: Stretches | null): BoundText {
    if (!all?.row.some(({ mayBind }) => mayBind)) return NOTHING;
    const stretches = placed(all);
    const known = stretches.map(({ stretch }) => this.#of(stretch));
    const textOf = ({ start, end }: PlacedStretch) => source.slice(start, end);
    const definitions = definitionsOf(
      stretches.map((placed, index) => ({ start: placed.start, found: known[index]!.definitions(textOf(placed)) })),
    );
    const refersAnywhere = [...definitions.values()].some(({ url }) => SCHEME.test(url));

    const links: Link[] = [];
    const slips: BoundSlip[] = [];
    const marks: InlineStretch['marks'][number][] = [];
    for (const [index, stretch] of stretches.entries()) {
      const here = known[index]!;
      if (!here.mayBind && !refersAnywhere) continue;
      const { start } = stretch;
      const text = textOf(stretch);
      // What is defined elsewhere makes links here, and a link within brackets keeps these from being one.
      const defined = here.labels(text).filter((label) => definitions.has(label));
      if (!here.mayBind && defined.length === 0) continue;
      if (here.isBeyondReading(text)) {
        const refers = defined.some((label) => SCHEME.test(definitions.get(label)!.url));
        const at = { start, end: lineEndFrom(source, start) };
        if (refers || here.mayBind) slips.push({ at, problem: 'too-many-marks' });
        continue;
      }
      const found = here.inline(text, defined);
      const inNote = (span: SourceSpan) => ({ start: start + span.start, end: start + span.end });
      for (const { span, url, targetSpan, label, text: seen } of found.links) {
        const definition = label === null ? null : definitions.get(label);
        const target = definition?.url ?? url;
        const at = definition?.span ?? (targetSpan && inNote(targetSpan));
        if (!at || !SCHEME.test(target)) continue;
        links.push({
          span: inNote(span),
          text: new PlacedText(seen, start),
          target: target.replace(SCHEME, ''),
          targetSpan: at,
        });
      }
      for (const { at, problem } of found.slips) slips.push({ at: inNote(at), problem });
      for (const mark of found.marks) {
        const parent = mark.parent === null ? null : start + mark.parent;
        const statement = mark.statement && { ...mark.statement, start: start + mark.statement.start };
        marks.push({ span: inNote(mark.span), parent, statement });
      }
    }
    const { tables, unpaired } = pairMarks(source, marks);
    return { links, tables, slips: [...slips, ...unpaired] };
  }

  #of(stretch: Stretch): KnownStretch {
    const known = this.#known.get(stretch) ?? new KnownStretch(stretch.mayBind);
    this.#known.set(stretch, known);
    return known;
  }
}

/** By label; of several with one label the first holds (CommonMark 0.31.2, section 6.3). */
function definitionsOf(
  stretches: readonly { readonly start: number; readonly found: readonly Definition[] }[],
): ReadonlyMap<string, Definition> {
  const byLabel = new Map<string, Definition>();
  for (const { start, found } of stretches) {
    for (const { label, url, span } of found) {
      if (byLabel.has(label)) continue;
      byLabel.set(label, { label, url, span: { start: start + span.start, end: start + span.end } });
    }
  }
  return byLabel;
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
