/** A sheet as one page to print: style within, no script, nothing fetched. */
import type { Sheet, SheetBlock } from '../text/sheet.ts';
import type { Inline } from '../text/tree.ts';
import { oneLine } from './markdown-escape.ts';

const STYLE = `
@page { margin: 15mm; }
body { font: 11pt/1.35 system-ui, sans-serif; max-width: 60rem; margin: 1.5rem auto; padding: 0 1rem; color: #000; background: #fff; }
h1 { font-size: 1.5em; } h2 { font-size: 1.15em; margin: 1.4em 0 .4em; break-after: avoid; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
th, td { border: 1px solid #555; padding: .25em .5em; text-align: left; vertical-align: top; height: 1.6em; }
td.number { white-space: nowrap; font-variant-numeric: tabular-nums; } tr { break-inside: avoid; }
.quiet { color: #444; font-size: .9em; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: 10pt; } }
`;

export function worksheetHtml({ title, lead, sections }: Sheet): string {
  const body = [
    `<h1>${text(title)}</h1>`,
    ...lead.map(blockHtml),
    ...sections.flatMap(({ heading, blocks }) => [`<h2>${text(heading)}</h2>`, ...blocks.map(blockHtml)]),
  ];
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width">
<title>${text(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${body.join('\n')}
</main>
</body>
</html>
`;
}

function blockHtml(block: SheetBlock): string {
  switch (block.kind) {
    case 'paragraph':
      return `<p>${inline(block.inline)}</p>`;
    case 'list':
      return `<ul>\n${block.items.map((item) => `<li>${inline(item)}</li>`).join('\n')}\n</ul>`;
    case 'table':
      return tableHtml(block);
  }
}

function tableHtml({ columns, rows }: Extract<SheetBlock, { kind: 'table' }>): string {
  const titled = columns.some(({ title }) => title !== '');
  const head = columns
    .map(({ title }) => (title === '' ? '<td></td>' : `<th scope="col">${text(title)}</th>`))
    .join('');
  const body = rows.map((row) => {
    const cells = columns.map(({ align }, column) => {
      const cell = text(row[column] ?? '');
      if (!titled && column === 0) return `<th scope="row">${cell}</th>`;
      return align === 'number' ? `<td class="number">${cell}</td>` : `<td>${cell}</td>`;
    });
    return `<tr>${cells.join('')}</tr>`;
  });
  return `<table>\n${titled ? `<thead><tr>${head}</tr></thead>\n` : ''}<tbody>\n${body.join('\n')}\n</tbody>\n</table>`;
}

function inline(runs: Inline): string {
  return runs
    .map(({ text: words, weight }) => {
      if (weight === 'strong') return `<strong>${text(words)}</strong>`;
      return weight === 'quiet' ? `<span class="quiet">${text(words)}</span>` : text(words);
    })
    .join('');
}

const NAMED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** The one place where text is made inert. */
function text(words: string): string {
  return oneLine(words).replace(/[&<>"']/g, (mark) => NAMED[mark] as string);
}
