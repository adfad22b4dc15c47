/** A document whose positions are counted as the client counts them: in UTF-8, UTF-16 or UTF-32 code units. */
import { PositionEncodingKind, Range, type TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { type Position, TextDocument } from 'vscode-languageserver-textdocument';

/** How many units of an encoding a code point takes. */
const widths = new Map<PositionEncodingKind, (codePoint: number) => number>([
  [PositionEncodingKind.UTF8, (point) => (point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x1_0000 ? 3 : 4)],
  [PositionEncodingKind.UTF16, (point) => (point < 0x1_0000 ? 1 : 2)],
  [PositionEncodingKind.UTF32, () => 1],
]);

/** The first that the client offers and we know; UTF-16 where it offers none. */
export function chosenEncoding(offered: unknown): PositionEncodingKind {
  const known = Array.isArray(offered) ? offered.find((encoding) => widths.has(encoding)) : undefined;
  return known ?? PositionEncodingKind.UTF16;
}

export class OpenDocument implements TextDocument {
  private readonly width: ((codePoint: number) => number) | null;
  private readonly inner: TextDocument;

  /** @throws TypeError where it is no document, so that a malformed message leaves nothing half open. */
  constructor(uri: string, languageId: string, version: number, text: string, encoding: PositionEncodingKind) {
    if (typeof uri !== 'string' || typeof text !== 'string') throw new TypeError('A document has a URI and a text.');
    this.inner = TextDocument.create(uri, languageId, version, text);
    this.width = encoding === PositionEncodingKind.UTF16 ? null : (widths.get(encoding) ?? null);
  }

  get uri(): string {
    return this.inner.uri;
  }

  get languageId(): string {
    return this.inner.languageId;
  }

  get version(): number {
    return this.inner.version;
  }

  get lineCount(): number {
    return this.inner.lineCount;
  }

  getText(range?: Range): string {
    return range
      ? this.inner.getText().slice(this.offsetAt(range.start), this.offsetAt(range.end))
      : this.inner.getText();
  }

  positionAt(offset: number): Position {
    const found = this.inner.positionAt(offset);
    if (!this.width) return found;
    const before = this.inner.getText({ start: { line: found.line, character: 0 }, end: found });
    let character = 0;
    for (const letter of before) character += this.width(letter.codePointAt(0)!);
    return { line: found.line, character };
  }

  getLineRange(line: number): Range {
    const { start, end } = this.inner.getLineRange(line);
    return { start: this.positionAt(this.inner.offsetAt(start)), end: this.positionAt(this.inner.offsetAt(end)) };
  }

  getEOLCharacters(line: number): string {
    return this.inner.getEOLCharacters(line);
  }

  /** A place within a character counts as the place before it; one behind its line as the line's end. */
  offsetAt(position: Position): number {
    if (!this.width) return this.inner.offsetAt(position);
    const { line, character } = position;
    const start = this.inner.offsetAt({ line, character: 0 });
    const text = this.inner.getText({ start: { line, character: 0 }, end: { line: line + 1, character: 0 } });
    let [offset, units] = [start, 0];
    for (const letter of text) {
      units += this.width(letter.codePointAt(0)!);
      if (units > character || letter === '\n' || letter === '\r') break;
      offset += letter.length;
    }
    return offset;
  }

  /**
   * Ranges that reach beyond the document end with it.
   * @throws TypeError where a change is none; nothing is changed then.
   */
  update(changes: readonly TextDocumentContentChangeEvent[], version: number): void {
    if (!Array.isArray(changes) || !changes.every(isChange))
      throw new TypeError('A change has a text, and a range or none.');
    for (const change of changes) TextDocument.update(this.inner, [this.inUtf16(change)], version);
  }

  private inUtf16(change: TextDocumentContentChangeEvent): TextDocumentContentChangeEvent {
    if (!('range' in change) || change.range === undefined) return { text: change.text };
    const [from, to] = [this.offsetAt(change.range.start), this.offsetAt(change.range.end)];
    const start = this.inner.positionAt(Math.min(from, to));
    return { range: { start, end: this.inner.positionAt(Math.max(from, to)) }, text: change.text };
  }
}

function isChange(change: unknown): boolean {
  const { text, range } = (change ?? {}) as { readonly text?: unknown; readonly range?: unknown };
  return typeof text === 'string' && (range === undefined || Range.is(range));
}
