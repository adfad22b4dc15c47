/** The prose of a stretch of Markdown: what a reader reads as running text. */
import { flowTree, SHIFT } from './flow.ts';
import { linesOf } from './lines.ts';
import type { Prose, SourceSpan } from './note-text.ts';
import type { PlacedStretch, Stretch } from './stretches.ts';

/** Reads prose again and again while a note is edited; what it knew of stretches that stay is kept with them. */
export class ProseReader {
  readonly #known = new WeakMap<Stretch, readonly SourceSpan[]>();

  read(source: string, stretches: readonly PlacedStretch[]): readonly Prose[] {
    return stretches.map(({ start, end, stretch }) => {
      const lines = this.#known.get(stretch) ?? proseIn(source.slice(start, end));
      this.#known.set(stretch, lines);
      return { start, lines };
    });
  }
}

type Root = ReturnType<typeof flowTree>;
type Node = Root | Root['children'][number];

function proseIn(markdown: string): readonly SourceSpan[] {
  const spans: SourceSpan[] = [];
  const waiting: Node[] = [flowTree(markdown)];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    if (node.type === 'paragraph' || node.type === 'heading') {
      const [first] = node.children;
      const last = node.children.at(-1);
      if (!first?.position || !last?.position) continue;
      const start = first.position.start.offset! - SHIFT;
      spans.push(...runningText(markdown, { start, end: last.position.end.offset! - SHIFT }));
    } else if ('children' in node) waiting.push(...node.children);
  }
  return spans.sort((a, b) => a.start - b.start);
}

/** Raw HTML and addresses in angle brackets; addresses by themselves; where a link leads, and what it is called by. */
const NOT_READ =
  /<[\p{L}/!?][^<>]{0,1000}>|(?:https?:\/\/|www\.)[^\s<>()]+|\]\([^()\r\n]{0,1000}\)|\]\[[^[\]\r\n]{0,1000}\]/gu;

/** The lines of a paragraph, without the marks of its containers and without what is not read as text. */
function runningText(markdown: string, { start, end }: SourceSpan): SourceSpan[] {
  const text = markdown.slice(start, end);
  const holes = [...codeIn(text)];
  const withoutCode = blanked(text, holes);
  for (const { index, 0: found } of withoutCode.matchAll(NOT_READ)) {
    holes.push({ start: index, end: index + found.length });
  }
  for (const line of linesOf(text)) {
    const prefix = line.start === 0 ? 0 : /^[ \t>]*/.exec(text.slice(line.start, line.end))![0].length;
    holes.push({ start: line.start, end: line.start + prefix }, { start: line.end, end: line.next });
  }
  return between(holes, text.length).map((span) => ({ start: start + span.start, end: start + span.end }));
}

/**
 * Runs of as many backticks, and what stands between them (CommonMark 0.31.2, section 6.1). A backslash keeps one backtick
 * from beginning code, and none from ending it.
 */
function codeIn(text: string): readonly SourceSpan[] {
  const runs = Array.from(text.matchAll(/`+/g), ({ index: start, 0: marks }) => {
    let backslashes = 0;
    while (text[start - backslashes - 1] === '\\') backslashes += 1;
    return { start, length: marks.length, escaped: backslashes % 2 };
  });
  // Runs of each length, the first one last.
  const ends = new Map<number, number[]>();
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const { length } = runs[index]!;
    const same = ends.get(length);
    if (same) same.push(index);
    else ends.set(length, [index]);
  }
  const code: SourceSpan[] = [];
  for (let index = 0; index < runs.length; index += 1) {
    const { start, length, escaped } = runs[index]!;
    const same = ends.get(length - escaped) ?? [];
    while (same.length > 0 && same.at(-1)! <= index) same.pop();
    const closing = same.at(-1);
    if (closing === undefined) continue;
    code.push({ start: start + escaped, end: runs[closing]!.start + runs[closing]!.length });
    index = closing;
  }
  return code;
}

/** The text with spaces in place of `holes`, which are in order and apart. */
function blanked(text: string, holes: readonly SourceSpan[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end } of holes) {
    pieces.push(text.slice(at, start), ' '.repeat(end - start));
    at = end;
  }
  return pieces.join('') + text.slice(at);
}

/** What `holes` leave of a text. */
function between(holes: readonly SourceSpan[], length: number): SourceSpan[] {
  const left: SourceSpan[] = [];
  let at = 0;
  for (const { start, end } of [...holes].sort((a, b) => a.start - b.start)) {
    if (start > at) left.push({ start: at, end: start });
    at = Math.max(at, end);
  }
  if (length > at) left.push({ start: at, end: length });
  return left;
}
