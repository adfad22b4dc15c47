/** The path behind `use`: notes that somebody else knows of. */
import type { Span } from '../../notation/index.ts';
import type { Candidate } from './types.ts';

/** The path that is being written, quotation marks included; null elsewhere. */
export function pathAt(text: string, at: number): Span | null {
  const line = text.slice(text.lastIndexOf('\n', at - 1) + 1, at);
  const found = /^[ \t]*use[ \t]+("[^"]*|[^\s"#]*)$/i.exec(line);
  if (!found) return null;
  const written = found[1]!;
  const rest = (written.startsWith('"') ? /^[^"\n]*"?/ : /^[^\s"#]*/).exec(text.slice(at))![0];
  return { start: at - written.length, end: at + rest.length };
}

/** `paths` as they are written from the folder of the note. */
export function pathCandidates(paths: readonly string[]): readonly Candidate[] {
  return paths.map((path) => {
    const text = /[\s#]/.test(path) ? `"${path}"` : path;
    return { kind: 'note', label: path, text, filter: text, detail: 'note' };
  });
}
