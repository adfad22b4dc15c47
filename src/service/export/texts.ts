/** Text of a note in another program's fields: shown there, and obeyed by nothing. */

import type { Json } from '../../render/exact-json.ts';
import { markupText, terminalSafe } from '../../render/index.ts';

/** In one line, without control characters, direction marks and halves of characters. */
export function clean(text: string): string {
  return terminalSafe(text)
    .replace(/\p{Cs}/gu, '\uFFFD')
    .trim();
}

export function concept(text: string): Json {
  return { text: clean(text) };
}

/** The narrative of a resource: paragraphs of plain text. */
export function narrative(paragraphs: readonly string[]): Json {
  const body = paragraphs.map((text) => `<p>${markupText(clean(text))}</p>`).join('');
  return { status: 'additional', div: `<div xmlns="http://www.w3.org/1999/xhtml">${body}</div>` };
}

/**
 * An Annotation, whose text is Markdown in FHIR R4 and is to be readable without it: no more is escaped than what makes
 * links, pictures, emphasis, code and HTML within a line (CommonMark 0.31.2, section 2.4).
 */
export function annotation(text: string): Json {
  return { text: clean(text).replace(/[\\`*_~[\]<>&]/g, '\\$&') };
}

/** An empty list is no list in FHIR. */
export function list<T>(items: readonly T[]): readonly T[] | undefined {
  return items.length > 0 ? items : undefined;
}
