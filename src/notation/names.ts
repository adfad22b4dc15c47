/** Names given by the author: one word that begins with a letter and is no word of the notation's own. */
import type { Name, Span, Words } from './ast.ts';
import { LIMITS } from './limits.ts';
import type { Line } from './line.ts';
import { normalise } from './normalise.ts';
import { isReserved } from './reserved.ts';

const NAME = /^\p{L}[\p{L}\p{M}\p{Nd}-]*$/u;

/** The run without white space at the cursor, whatever it holds but a comma at its end; null where none begins. */
export function nameRun(line: Line): Words | null {
  const start = line.at;
  let end = start;
  for (let token = line.tokens[end]; token !== undefined && token.kind !== 'string'; token = line.tokens[end]) {
    const lastComma = token.kind === 'comma' && !line.tokens[end + 1]?.glued;
    if (lastComma || (end > start && !token.glued)) break;
    end += 1;
  }
  return end === start ? null : line.words(start, end);
}

/** A name at the cursor. `before` is what a missing one is reported on. */
export function readName(line: Line, before: Span): Name | null {
  const name = nameRun(line);
  if (name === null) return line.fail('missing-name', before);
  if (!isName(line, name) || !isFree(line, name)) return null;
  while (!line.done && line.here().end <= name.span.end) line.at += 1;
  return name;
}

/** A substance's name: as many words as the line has. */
export function readNamePhrase(line: Line, before: Span): Name | null {
  const start = line.at;
  for (let word = nameRun(line); word !== null; word = nameRun(line)) {
    if (!isName(line, word) || !isFree(line, word)) return null;
    while (!line.done && line.here().end <= word.span.end) line.at += 1;
  }
  if (line.at === start) return line.fail('missing-name', before);
  const name = line.words(start, line.at);
  return isShort(line, name) ? name : null;
}

function isName(line: Line, name: Words): boolean {
  if (!NAME.test(normalise(name.text).normalize('NFC'))) {
    line.fail('bad-name', name.span);
    return false;
  }
  return isShort(line, name);
}

function isShort(line: Line, name: Words): boolean {
  if ([...name.text].length <= LIMITS.nameLength) return true;
  line.stop({ code: 'over-limit', span: name.span, what: 'name-length', limit: LIMITS.nameLength });
  return false;
}

/** What else cannot be a name (units, solutes, observables) is known where names are bound. */
function isFree(line: Line, name: Words): boolean {
  if (!isReserved(normalise(name.text).toLowerCase())) return true;
  line.stop({ code: 'reserved-name', span: name.span, found: name.text });
  return false;
}
