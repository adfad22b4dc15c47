import type { Figure } from '../text/figures.ts';
import type { Inline, Run, Tree } from '../text/tree.ts';
import { decimalPadding } from './decimal-column.ts';
import { figureSvg } from './figure-svg.ts';
import { oneLine } from './markdown-escape.ts';
import { element, markupText } from './markup.ts';
import { isWebAddress } from './web-address.ts';

export interface HtmlPlace {
  /** Of the headings: 1 to 6. */
  readonly level: number;
  /** Begins the ids of what is inside; unique on the page; letters, digits and hyphens. */
  readonly id: string;
}

/** A tree as static HTML: no script, no style of its own, no address but those of its links. Its classes begin with `meniscus-`. */
export function html(tree: readonly Tree[], place: HtmlPlace): string {
  const parts: string[] = [];
  let figures: string[] = [];
  const close = () => {
    if (figures.length > 0) parts.push(element('div', { class: 'meniscus-figures' }, ...figures));
    figures = [];
  };
  for (const [index, block] of tree.entries()) {
    const id = `${place.id}-${index}`;
    if (block.kind === 'figure') {
      figures.push(figureHtml(block.figure, id));
    } else {
      close();
      parts.push(blockHtml(block, { ...place, id }));
    }
  }
  close();
  return parts.join('\n');
}

function blockHtml(block: Exclude<Tree, { kind: 'figure' }>, place: HtmlPlace): string {
  switch (block.kind) {
    case 'heading': {
      const aside = block.aside === undefined ? '' : element('span', { class: 'meniscus-aside' }, text(block.aside));
      const level = Math.min(Math.max(place.level, 1), 6);
      return element(`h${level}`, { class: 'meniscus-title' }, text(block.text), aside && ` ${aside}`);
    }
    case 'paragraph':
      return element('p', {}, inlineHtml(block.inline));
    case 'list':
      return element('ul', {}, ...block.items.map((item) => element('li', {}, inlineHtml(item))));
    case 'table':
      return tableHtml(block);
    case 'written':
      return element(
        'pre',
        { class: 'meniscus-written' },
        element('code', {}, block.text.split('\n').map(exactly).join('\n')),
      );
    case 'finding':
      return element('p', { class: `meniscus-finding meniscus-${block.weight}` }, inlineHtml(block.inline));
    case 'folded':
      return element(
        'details',
        block.answer ? { class: 'meniscus-answer' } : {},
        element('summary', {}, text(block.title)),
        html(block.body, place),
      );
    case 'rule':
      return '<hr>';
  }
}

/** The one way of a text into the HTML. A number and its unit stay on one line. */
function text(written: string): string {
  return exactly(written.replace(/(?<=\d) (?=[a-zµ°%])/gi, '\u00A0'));
}

/** Without a change of its spaces, since it may be copied back into a note. */
function exactly(written: string): string {
  return markupText(oneLine(written));
}

function inlineHtml(inline: Inline): string {
  return inline.map(runHtml).join('');
}

function runHtml({ text: written, weight, href }: Run): string {
  const shown = text(written);
  const linked = href !== undefined && isWebAddress(href) ? element('a', { href }, shown) : shown;
  if (weight === undefined) return linked;
  return weight === 'strong' ? element('strong', {}, linked) : element('small', {}, linked);
}

/** The name under a picture is its words on the page; its sentence is for whoever cannot see it. */
function figureHtml(figure: Figure, id: string): string {
  return element(
    'figure',
    { class: `meniscus-figure meniscus-${figure.kind}` },
    figureSvg(figure, id),
    element('figcaption', {}, text(figure.name)),
  );
}

/** A sign takes up as much room as a digit, which the padding of the column counts it as. */
function numberHtml(written: string): string {
  const [sign = ''] = /^[+\-−](?=\d)/.exec(written) ?? [];
  if (sign === '') return text(written);
  return element('span', { class: 'meniscus-sign' }, text(sign)) + text(written.slice(1));
}

/** Columns beyond which a table does not fit on every page. */
const WIDE = 3;
/** As wide as a digit, so that decimal points stand below one another. */
const FIGURE_SPACE = '\u2007';

function tableHtml({ caption, columns, rows }: Extract<Tree, { kind: 'table' }>): string {
  const padding = columns.map(({ align }, x) =>
    align === 'number' ? decimalPadding(rows.map((row) => row[x] ?? '')) : rows.map(() => 0),
  );
  const named = (x: number) => (columns.length > WIDE ? { 'data-column': columns[x]!.title } : {});
  const head = columns.map(({ title }) => (title === '' ? '<td></td>' : element('th', { scope: 'col' }, text(title))));
  const body = rows.map((row, y) =>
    columns.map(({ align }, x) => {
      const written = row[x] ?? '';
      if (align === 'number')
        return element(
          'td',
          { class: 'meniscus-number', ...named(x) },
          FIGURE_SPACE.repeat(padding[x]![y]!),
          numberHtml(written),
        );
      const cell = text(written);
      return x === 0 ? element('th', { scope: 'row' }, cell) : element('td', {}, cell);
    }),
  );
  const line = (cells: readonly string[]) => element('tr', {}, ...cells);
  // A table that may be wider than the page is scrolled, by keyboard too; on a narrow page its rows are set as lists.
  const wide =
    columns.length > WIDE ? { class: 'meniscus-table meniscus-wide', tabindex: 0 } : { class: 'meniscus-table' };
  return element(
    'div',
    wide,
    element(
      'table',
      {},
      caption === undefined ? '' : element('caption', {}, text(caption)),
      element('thead', {}, line(head)),
      element('tbody', {}, ...body.map(line)),
    ),
  );
}
