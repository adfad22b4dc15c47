export { figureSvg } from './figure-svg.ts';
export { hoverMarkdown } from './hover-markdown.ts';
export { type HtmlPlace, html } from './html.ts';
export { oneLine } from './markdown-escape.ts';
export { element, markupText } from './markup.ts';
export { terminalSafe, terminalSafeJson } from './terminal-safe.ts';
export { terminalText } from './terminal-text.ts';
export { worksheetHtml } from './worksheet-html.ts';
export { worksheetMarkdown } from './worksheet-markdown.ts';
