/** One block of a note as HTML. */
import { element, html } from '../render/index.ts';
import type { PreviewBlock } from '../service/index.ts';

/** `level` is that of its cards' titles, `index` counts the blocks of the page. */
export function blockHtml({ text, cards }: PreviewBlock, level: number, index: number): string {
  const id = `meniscus-${index}`;
  const written = html([{ kind: 'written', text }], { level, id });
  const shown = cards.map((card, number) =>
    element('section', { class: 'meniscus-card' }, html(card, { level, id: `${id}-${number}` })),
  );
  return element('div', { class: 'meniscus-block' }, [written, ...shown].join('\n'));
}
