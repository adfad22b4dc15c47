/** What a reader sees of a link, and where each of its characters is written. */
import { type Node, placeOf } from './nodes.ts';
import type { LinkText, SourceSpan } from './note-text.ts';

/** Text with the place of each of its UTF-16 units in the stretch. */
export interface SeenText {
  readonly text: string;
  readonly places: readonly SourceSpan[];
  /** Where a link without text stands. */
  readonly anchor: number;
}

export class PlacedText implements LinkText {
  readonly text: string;

  constructor(
    private readonly seen: SeenText,
    private readonly base: number,
  ) {
    this.text = seen.text;
  }

  toSource({ start, end }: SourceSpan): SourceSpan {
    const { places, anchor } = this.seen;
    const last = places.length - 1;
    const at = (index: number) => places[Math.min(Math.max(index, 0), last)];
    const from = at(start)?.start ?? anchor;
    const to = at(end - 1)?.end ?? anchor;
    return { start: this.base + from, end: this.base + Math.max(from, to) };
  }
}

export function seenText(markdown: string, link: Node, shift: number): SeenText {
  let text = '';
  const places: SourceSpan[] = [];
  const visit = (node: Node): void => {
    if (node.type === 'text' || node.type === 'inlineCode') {
      places.push(...placesOf(markdown, placeOf(node, shift), node));
      text += node.value;
    } else if (node.type === 'break') {
      places.push(placeOf(node, shift));
      text += ' ';
    } else if ('children' in node) for (const child of node.children) visit(child as Node);
  };
  visit(link);
  return { text, places, anchor: placeOf(link, shift).start + 1 };
}

type Text = Extract<Node, { type: 'text' | 'inlineCode' }>;

/**
 * Follows the source along what the parser made of it: a backslash before a mark is left out, a character reference is
 * the character, and a line end takes the spaces around it and the marks of containers with it.
 */
function placesOf(markdown: string, { start, end }: SourceSpan, node: Text): SourceSpan[] {
  const { value } = node;
  const places: SourceSpan[] = [];
  let at = start;
  while (markdown[at] === '`' && value[0] !== '`') at += 1;
  for (let index = 0; index < value.length; index += 1) {
    const wanted = value[index]!;
    const from = at;
    if (/[\r\n]/.test(wanted) || (wanted === ' ' && /[\r\n]/.test(markdown[at] ?? ''))) {
      at = Math.min(end, at + /^[ \t]*(?:\r\n|\r|\n)[ \t>]*/.exec(markdown.slice(at, end))![0].length);
      if (wanted === '\r' && value[index + 1] === '\n') {
        places.push({ start: from, end: from });
        index += 1;
      }
    } else if (markdown[at] === '&' && node.type === 'text' && referenceAt(markdown, at, value, index) > 0) {
      // It may stand for two units, of which the second takes no room.
      at += referenceAt(markdown, at, value, index);
    } else if (markdown[at] === wanted) {
      at += 1;
    } else if (markdown[at] === '\\' && markdown[at + 1] === wanted) {
      at += 2;
    }
    places.push({ start: from, end: Math.min(at, end) });
  }
  return places;
}

/** The length of a character reference; 0 where there is none, or what looks like one stands in the text as it is. */
function referenceAt(markdown: string, at: number, value: string, index: number): number {
  const [reference] = /^&(?:#[\dxa-f]{1,8}|\w{1,32});/i.exec(markdown.slice(at, at + 40)) ?? [];
  if (reference === undefined) return 0;
  const isAmpersand = /^&(?:amp|#0*38|#x0*26);$/i.test(reference);
  return isAmpersand || !value.startsWith(reference, index) ? reference.length : 0;
}
