import fc from 'fast-check';

const PREFIXES = [
  '',
  '',
  '',
  ' ',
  '  ',
  '   ',
  '    ',
  '\t',
  '- ',
  '* ',
  '+ ',
  '1. ',
  '2) ',
  '-\t',
  '> ',
  '>',
  '> - ',
  '- > ',
  '- - ',
  '  - ',
  '  > ',
];
const BODIES = [
  ...[
    '',
    '',
    '',
    'prose',
    'infusion',
    '# Heading',
    'Setext',
    '===',
    '---',
    '* * *',
    '-',
    '[a]: /b',
    "[a]: /b 'title",
    '| a | b |',
  ],
  ...[
    '```infusion',
    '```infusion',
    '~~~ Infusion alone',
    '````infusion',
    '``` infusion skip',
    '```infusion `x`',
    '\\```infusion',
  ],
  ...['```', '```', '~~~', '````', '``` ', '````markdown', '```js', '`` ```infusion', '~~~~'],
  ...['mixture a', '  1 L water', '\t1 L water', '- x', '> y'],
  ...[
    '<!--',
    '-->',
    '<!-- a -->',
    '<div>',
    '</div>',
    '<a>',
    '<pre>',
    '</pre>',
    '<script>x',
    '</STYLE>',
    '<?',
    '?>',
    '<!X',
    '>',
    '<![CDATA[',
    ']]>',
    '<br/>',
  ],
];
/** Not CR and LF in one note: an empty line between the two is lost in what remark answers. */
const lineEnds = fc.constantFrom(['\n'], ['\r\n'], ['\r'], ['\n', '\r\n'], ['\r', '\r\n', '\r']);
const lines = (bodies: readonly string[]) => {
  const line = fc
    .tuple(fc.constantFrom(...PREFIXES), fc.constantFrom(...bodies))
    .map(([prefix, body]) => prefix + body);
  return fc.array(line, { minLength: 1, maxLength: 24 });
};
const head = fc.constantFrom(
  '',
  '',
  '',
  '\uFEFF',
  '---\na: 1\n---\n',
  '---  \r\n\r\n```infusion\r\n---\t\r\n',
  '---\na: 1\n\n',
  '\uFEFF---\n---\n',
  '\uFEFF\uFEFF',
);
/** Notes of lists, quotations, raw HTML, indented code and fences in any order, whole or cut short. */
export const notes = notesOf(BODIES);

/** The same with links and marks, and what keeps them from being any. */
export const notesWithLinks = notesOf([
  ...BODIES,
  ...[
    '[77 mmol/L](infusion:bag/sodium)',
    '[**77** `mmol/L`](<infusion:bag/free water> "t") and',
    '[77 mmol/L][na]',
    '[na] and [Na][]',
    '[na]: infusion:bag/sodium',
    '[NA]: /other',
    '[b]: <infusion:bag>',
    '[77',
    'mmol/L](infusion:bag/sodium)',
    '[1 [77][b] 2](infusion:bag/sodium)',
    '![77](infusion:bag/sodium)',
    '`[77](infusion:bag)`',
    '``',
    '\\[77](infusion:bag)',
    '[77](infusion:bag/free water)',
    '<infusion:bag>',
    '<a href="[77](infusion:bag)">',
    '[&amp; 77\\%](infusion:bag/sodium)',
    '# [77](infusion:bag)',
  ],
  ...[
    '<!-- infusion:compare bag by sodium -->',
    '<!-- infusion:compare bag by sodium -->',
    '<!--infusion:compare bag by sodium--> x',
    'x <!-- infusion:compare bag by sodium -->',
    '<!-- infusion:compare bag',
    '<!-- /infusion -->',
    '<!-- /infusion -->',
    '<!-- /infusion --> <!-- a -->',
    '|  | sodium, mmol/L |',
  ],
]);

function notesOf(bodies: readonly string[]) {
  return fc.tuple(head, lines(bodies), lineEnds, fc.boolean()).map(([start, all, ends, closed]) => {
    const text = all.map((each, index) => each + ends[index % ends.length]).join('');
    return start + (closed ? text : text.replace(/[\r\n]+$/, ''));
  });
}
