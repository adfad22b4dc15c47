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
const line = fc.tuple(fc.constantFrom(...PREFIXES), fc.constantFrom(...BODIES)).map(([prefix, body]) => prefix + body);
const lines = fc.array(line, { minLength: 1, maxLength: 24 });
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
export const notes = fc.tuple(head, lines, lineEnds, fc.boolean()).map(([start, all, ends, closed]) => {
  const text = all.map((each, index) => each + ends[index % ends.length]).join('');
  return start + (closed ? text : text.replace(/[\r\n]+$/, ''));
});
