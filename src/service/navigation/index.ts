/** Finding one's way among the names of a note. */
import type { WorkedNoteModel } from '../../note/index.ts';
import type { Lines } from '../lines.ts';
import { linksOf, nameAt } from './names.ts';
import { renamed } from './rename.ts';
import { foldsOf, symbolsOf } from './symbols.ts';
import type { Navigation } from './types.ts';

export function navigationOf(
  model: WorkedNoteModel,
  lines: Lines,
  work: (source: string) => WorkedNoteModel,
): Navigation {
  return {
    name(offset) {
      const found = nameAt(model, offset);
      return found && { name: found.name, span: found.span, places: found.places };
    },
    rename: (offset, name) => renamed(model, offset, name, work),
    links: () => linksOf(model),
    symbols: () => symbolsOf(model),
    folds: () => foldsOf(model, lines),
  };
}
