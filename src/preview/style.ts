/**
 * The style sheet of the cards and figures. Colours are the editor's where its preview gives them, else those of the page's
 * light or dark scheme. What a colour says is said by a word, a pattern or a shape as well.
 */
export const PREVIEW_STYLE = `.meniscus-block {
  --meniscus-faint: var(--vscode-descriptionForeground, #4a606c);
  --meniscus-paper: var(--vscode-editor-background, #ffffff);
  --meniscus-water: #d3e8f1;
  --meniscus-edge: var(--vscode-panel-border, #b9c6cd);
  --meniscus-error: var(--vscode-editorError-foreground, #a1260d);
  --meniscus-warning: var(--vscode-editorWarning-foreground, #8a5a00);
  --meniscus-information: var(--vscode-editorInfo-foreground, #1a5f8a);
  border: 1px solid var(--meniscus-edge);
  border-radius: 6px;
  margin: 1em 0;
  overflow: hidden;
}
@media (prefers-color-scheme: dark) {
  .meniscus-page .meniscus-block {
    --meniscus-faint: #a9bcc6;
    --meniscus-paper: #14191d;
    --meniscus-water: #1d4657;
    --meniscus-edge: #46565f;
    --meniscus-error: #f0917f;
    --meniscus-warning: #e0b35c;
    --meniscus-information: #7fbfe6;
  }
}
.vscode-dark .meniscus-block { --meniscus-water: #1d4657; }
.vscode-high-contrast .meniscus-block {
  --meniscus-faint: currentColor;
  --meniscus-water: transparent;
  --meniscus-edge: var(--vscode-contrastBorder, currentColor);
}
.meniscus-block pre.meniscus-written {
  border: 0;
  border-bottom: 1px solid var(--meniscus-edge);
  border-radius: 0;
  margin: 0;
  overflow-wrap: anywhere;
  padding: 0.7em 1em;
  white-space: pre-wrap;
}
.meniscus-card { padding: 0.9em 1em; }
.meniscus-card + .meniscus-card { border-top: 1px solid var(--meniscus-edge); }
.meniscus-card > :first-child { margin-top: 0; }
.meniscus-card > :last-child { margin-bottom: 0; }
.meniscus-card .meniscus-title {
  align-items: baseline;
  border: 0;
  display: flex;
  flex-wrap: wrap;
  font-size: 1.15em;
  font-weight: 600;
  gap: 0 1em;
  justify-content: space-between;
  line-height: 1.3;
  margin: 0 0 0.4em;
  overflow-wrap: anywhere;
  padding: 0;
}
.meniscus-card .meniscus-aside { font-weight: 400; }
.meniscus-card p, .meniscus-card ul { margin: 0.5em 0; overflow-wrap: anywhere; }
.meniscus-card small { color: var(--meniscus-faint); font-size: 0.9em; }
.meniscus-figures { column-gap: 1.5em; column-width: 340px; margin: 1em 0; }
.meniscus-figure { break-inside: avoid; margin: 0 0 1.2em; }
.meniscus-figure svg { display: block; height: auto; max-width: 100%; }
.meniscus-figure figcaption { color: var(--meniscus-faint); font-size: 0.85em; margin-top: 0.3em; }
.meniscus-figure .fill-ink { fill: currentColor; }
.meniscus-figure .stroke-ink { stroke: currentColor; }
.meniscus-figure .fill-faint { fill: var(--meniscus-faint); }
.meniscus-figure .stroke-faint { stroke: var(--meniscus-faint); }
.meniscus-figure .fill-paper { fill: var(--meniscus-paper); }
.meniscus-figure .fill-water { fill: var(--meniscus-water); }
.meniscus-figure .stroke-edge { stroke: none; }
.meniscus-table { margin: 0.8em 0; }
.meniscus-table.meniscus-wide { overflow-x: auto; }
.meniscus-table table { border-collapse: collapse; margin: 0; width: auto; }
.meniscus-table th, .meniscus-table td {
  background: none;
  border: 0;
  border-bottom: 1px solid var(--meniscus-edge);
  font-weight: 400;
  padding: 0.25em 1.2em 0.25em 0;
  text-align: left;
  vertical-align: top;
}
.meniscus-table tr { background: none; }
.meniscus-table thead th { color: var(--meniscus-faint); }
.meniscus-table .meniscus-number { font-variant-numeric: tabular-nums; white-space: nowrap; }
.meniscus-table .meniscus-sign { display: inline-block; text-align: right; width: 1ch; }
.meniscus-finding { border-left: 4px solid currentColor; padding-left: 0.7em; }
.meniscus-finding.meniscus-error { border-left-color: var(--meniscus-error); }
.meniscus-finding.meniscus-warning { border-left: 6px double var(--meniscus-warning); }
.meniscus-finding.meniscus-information { border-left: 4px dotted var(--meniscus-information); }
.meniscus-finding.meniscus-hint { border-left: 1px solid var(--meniscus-faint); }
.meniscus-card details { margin: 0.6em 0 0; }
.meniscus-card summary { cursor: pointer; }
.meniscus-card .meniscus-answer > summary { font-weight: 600; }
.meniscus-card caption { caption-side: top; color: inherit; padding: 0 0 0.5em; text-align: left; }
.meniscus-value { border-bottom: 1px dotted currentColor; }
@media (max-width: 420px) {
  .meniscus-card { padding: 0.7em 0.5em; }
  .meniscus-block pre.meniscus-written { padding: 0.6em 0.5em; }
  .meniscus-table { font-size: 0.875em; }
  .meniscus-table th, .meniscus-table td { padding-right: 0.6em; }
  .meniscus-table .meniscus-number { white-space: normal; }
}
@media (max-width: 600px) {
  .meniscus-wide thead { display: none; }
  .meniscus-wide table, .meniscus-wide caption, .meniscus-wide tbody, .meniscus-wide tr, .meniscus-wide th, .meniscus-wide td { display: block; }
  .meniscus-wide tr { border-bottom: 1px solid var(--meniscus-edge); padding: 0.3em 0; }
  .meniscus-wide tr > * { border: 0; padding: 0.1em 0; }
  .meniscus-wide th { font-weight: 600; }
  .meniscus-wide .meniscus-number::before { color: var(--meniscus-faint); content: attr(data-column) ': '; }
}
@media (forced-colors: active) {
  .meniscus-block { --meniscus-faint: CanvasText; --meniscus-paper: Canvas; --meniscus-water: Canvas; --meniscus-edge: CanvasText; }
}
@media print {
  .meniscus-block, .meniscus-page .meniscus-block {
    --meniscus-faint: #333333;
    --meniscus-paper: #ffffff;
    --meniscus-water: #e4eff4;
    --meniscus-edge: #777777;
    color: #000000;
    print-color-adjust: exact;
  }
  .meniscus-figure, .meniscus-table tr, .meniscus-finding { break-inside: avoid; }
  .meniscus-card details:not(.meniscus-answer)::details-content { content-visibility: visible; height: auto; }
}
`;

/** Of a page that stands by itself. */
export const PAGE_STYLE = `:root { color-scheme: light dark; }
.meniscus-page {
  background: #ffffff;
  color: #152a36;
  font: 16px/1.5 system-ui, -apple-system, 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif;
  margin: 0;
}
.meniscus-page main { margin: 0 auto; max-width: 52rem; padding: 1rem 1.25rem 3rem; }
.meniscus-page h1 { font-size: 1.6em; line-height: 1.25; }
.meniscus-page h2 { font-size: 1.25em; line-height: 1.3; margin-top: 1.8em; }
.meniscus-page pre { background: #f3f6f7; font-size: 0.875em; overflow-wrap: anywhere; padding: 0.7em 1em; white-space: pre-wrap; }
.meniscus-page code { font-family: ui-monospace, 'Cascadia Mono', Menlo, Consolas, 'Liberation Mono', monospace; }
.meniscus-page img { max-width: 100%; }
.meniscus-page a { color: #0b5a80; }
@media (prefers-color-scheme: dark) {
  .meniscus-page { background: #14191d; color: #dfe7eb; }
  .meniscus-page pre { background: #1c2429; }
  .meniscus-page a { color: #8cc8ea; }
}
@media (max-width: 420px) { .meniscus-page main { padding: 0.5rem 0.5rem 2rem; } }
@media print {
  .meniscus-page { background: #ffffff; color: #000000; }
  .meniscus-page pre { background: none; }
}
`;
