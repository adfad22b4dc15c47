/** How the time of a whole check grows with a note. */
import { createNoteService } from '../../src/service/index.ts';
import { type Finding, medians, ratio } from './measure.ts';
import { block, note } from './notes.ts';

export async function growth(): Promise<readonly Finding[]> {
  const bySize = await doubled('size', (factor) => note(1, 250_000 * factor, 50));
  const byBlocks = await doubled('blocks', (factor) => blocks(250 * factor));
  return [...bySize, ...byBlocks];
}

function blocks(count: number): string {
  return Array.from({ length: count }, (_, index) => block(`${index}`, index)).join('\n\n');
}

async function doubled(what: string, text: (factor: number) => string): Promise<readonly Finding[]> {
  const [once, twice] = [text(1), text(2)];
  const checked = (source: string) => () => {
    void createNoteService().work('file:///bench.md', source).diagnostics;
  };
  const times = await medians({ once: checked(once), twice: checked(twice) }, { runs: 15, warmUp: 3 });
  return [ratio(`(d) twice the ${what}`, times.twice / times.once, { atMost: 2.2 })];
}
