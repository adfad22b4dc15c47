/** Notes for fuzzing: of sound statements, of statements that were damaged, and of any UTF-16 whatever. */
import fc from 'fast-check';

const number = fc.constantFrom(
  ...['1', '2', '0.9', '5', '10', '20', '0.45', '250', '500', '1000', '½', '1½', '3/4', '0', '-7', '999999999999'],
  ...['1,000', '1 000', '.5', '5.', '1e3', '1e999999', '10^400', '9'.repeat(10_000), '0.'.padEnd(10_000, '0'), '1/0'],
  ...[
    'NaN',
    'Infinity',
    '-Infinity',
    '0x10',
    '1_000',
    '٣',
    '１',
    '1\u2009000',
    '1\u202f000',
    '1.2.3',
    '± 5 %',
    '1 ± 5 %',
  ],
);
const unit = fc.constantFrom(
  ...['mL', 'L', 'g', 'mg', 'mmol', 'mEq', 'mmol/L', 'mEq/L', '%', 'mL/h', 'mL/kg/h', 'drops/min', 'h', 'd', 'kg'],
  ...[
    'mmol/kg/d',
    'units',
    'µg',
    'mcg',
    'mOsm/L',
    'm^10',
    'L10',
    'mL¹⁰',
    'mmol/L/h/kg/d/m',
    'per',
    '/',
    '',
    'Mg',
    'mll',
  ],
);
const fluid = fc.constantFrom(
  ...['sodium chloride 0.9%', 'dextrose 5%', 'water', 'potassium chloride 2 mmol/mL', 'lactated Ringer’s', 'NS', 'bag'],
  ...[
    'cup',
    'ward',
    'powder',
    'dextrose 5% in water',
    'sodum chloride',
    'calcium gluconate 10%',
    '"Multivitamin" by volume',
  ],
);
const name = fc.constantFrom(
  'bag',
  'cup',
  'ward',
  'drip',
  'x',
  'in',
  'to',
  'L',
  'constructor',
  '__proto__',
  'toString',
  'é',
);
const result = fc.constantFrom(
  ...[
    'sodium',
    'potassium',
    'osmolarity',
    'free water',
    'tonicity in the body',
    'volume',
    'energy',
    'predicted sodium',
  ],
  ...['rate', 'duration', 'constructor', '__proto__', 'osmolality'],
);
const text = fc.constantFrom('"Title"', '“Title”', '"', '"a|b <b>"', '"\u202e"', '"[x](command:y)"');

/** Words and what stands between them. */
const said = (...parts: readonly (string | fc.Arbitrary<string>)[]) =>
  fc
    .tuple(...parts.map((part) => (typeof part === 'string' ? fc.constant(part) : part)))
    .map((words) => words.filter((word) => word !== '').join(' '));
const maybe = (part: fc.Arbitrary<string>) => fc.oneof(part, fc.constant(''));

const header = fc.oneof(
  said('mixture', name, maybe(text)),
  said('stock', name, maybe(text)),
  said('substance', name),
  said('patient', name, maybe(text)),
);
const order = said(
  'give',
  fc.oneof(said(number, unit), said(number, 'x', number, unit)),
  fluid,
  maybe(said('over', number, 'h')),
  maybe(said('at', number, unit)),
  maybe(fc.constantFrom('by vein', 'by central vein', 'by mouth')),
  maybe(said('to', name)),
  maybe(said('after', name)),
  maybe(said('every', number, 'h')),
  maybe(said('as', name)),
);
const step = fc.oneof(
  said(number, unit, fluid),
  said(number, 'x', number, unit, fluid),
  said('?', unit, fluid),
  said(number, unit, fluid, 'in', number, unit, fluid),
  said(fluid, 'to', number, unit),
  said(fluid, 'with', fluid, number, unit),
  said('withdraw', number, unit),
  said('exchange', number, unit, 'for', fluid),
  said(result, number, unit),
  said('claim', maybe(name), result, number, unit, maybe(said('within', number, '%'))),
  said('target', result, number, unit),
  said('show', maybe(name), result, maybe(said(',', result))),
  said('accept', fc.constantFrom('claim-mismatch', 'volume-added', 'x'), 'because', text),
  said('weight', number, 'kg'),
  said('serum sodium', number, 'mmol/L'),
  said('gives', result, number, ',', result, number),
);
const loose = fc.oneof(
  order,
  said('compare', fluid, ',', fluid, 'by', result, ',', result),
  said('use', fc.constantFrom('./a.md', '"./b c.md"', '../x.md', 'https://x.example/a.md', '/etc/passwd', './self.md')),
  said('#', fluid, text),
);
const statement = fc.oneof(
  { weight: 2, arbitrary: header },
  { weight: 5, arbitrary: step.map((words) => `  ${words}`) },
  { weight: 2, arbitrary: loose },
  { weight: 1, arbitrary: fc.constant('') },
);

/** Sound for the most part: each line has the shape of a statement. */
const soundBlock = fc
  .tuple(said('mixture', name), fc.array(statement, { maxLength: 14 }))
  .map(([first, lines]) => [first, ...lines].join('\n'));

/** Characters that something reads in a way of its own, and halves of others. */
const SPECIAL = [
  ...'\0\t\n\r\v\f\u0085\u00a0\u00ad\u061c\u200b\u200c\u200d\u200e\u202e\u2028\u2029\u2066\u2069\ufeff\ufffe\uffff',
  ...'\ud800\udbff\udc00\udfff()[]{}<>`*_~|!#$%&\'"+-.,:;/\\=?@^x0aéµ½',
  ...[
    '```',
    '~~~',
    '```infusion\n',
    '<!--',
    '-->',
    '<!-- infusion:',
    '](infusion:',
    '&#0;',
    '&amp;',
    '\r\n',
    '    ',
    '> ',
    '- ',
  ],
];
/** Any UTF-16, lone halves of surrogate pairs included. */
export const anyText = fc
  .array(
    fc.oneof(
      { weight: 3, arbitrary: fc.constantFrom(...SPECIAL) },
      { weight: 1, arbitrary: fc.nat(0xffff).map((code) => String.fromCharCode(code)) },
      { weight: 1, arbitrary: fc.constantFrom('mixture', ' 1 L water', 'infusion', 'give', 'x', 'in', '1') },
    ),
    { maxLength: 80 },
  )
  .map((parts) => parts.join(''));

/** What happens to a text in the hands of an editor: cut, put in, moved, doubled. */
const damage = fc.record({
  at: fc.nat(),
  cut: fc.nat(12),
  put: fc.oneof(fc.constant(''), fc.constantFrom(...SPECIAL), anyText, statement),
  doubled: fc.boolean(),
});
export const damages = fc.array(damage, { minLength: 1, maxLength: 6 });

export function damaged(
  whole: string,
  edits: readonly { at: number; cut: number; put: string; doubled: boolean }[],
): string {
  return edits.reduce((before, { at, cut, put, doubled }) => {
    const place = at % (before.length + 1);
    const piece = before.slice(place, place + cut);
    return before.slice(0, place) + put + (doubled ? piece + piece : '') + before.slice(place + cut);
  }, whole);
}

const damagedBlock = fc.tuple(soundBlock, damages).map(([block, edits]) => damaged(block, edits));
export const anyBlock = fc.oneof(soundBlock, damagedBlock, anyText);

const prose = fc.constantFrom(
  ...[
    '',
    'Text.',
    '# Heading',
    '[1 mmol/L](infusion:bag/sodium) of it',
    '[2 %](<infusion:cup/free water> "t")',
    '- item',
  ],
  ...['[154 mmol/L][n] and [n]\n\n[n]: infusion:bag/sodium', '<div>\n[1](infusion:bag/sodium)\n</div>', '> quoted'],
  ...[
    '<!-- infusion:compare bag, cup by sodium -->\n\n<!-- /infusion -->',
    '<!-- infusion:compare bag by x -->',
    '---',
  ],
  ...[
    '| a | b |\n| --- | --- |\n| [1](infusion:bag/sodium) | 2 |',
    '```js\ninfusion\n```',
    '`[1](infusion:bag/volume)`',
  ],
);
const wrapped = fc
  .tuple(anyBlock, fc.constantFrom('', '', '', '> ', '- ', '  '), fc.constantFrom('', '', 'alone', 'skip', 'x'))
  .map(([block, prefix, info]) => {
    const lines = [`\`\`\`infusion ${info}`.trimEnd(), ...block.split('\n'), '```'];
    return lines.map((line, index) => (prefix === '- ' && index > 0 ? '  ' : prefix) + line).join('\n');
  });
/** A whole note, sound for the most part. */
const soundNote = fc
  .tuple(
    fc.constantFrom('', '', '\ufeff', '---\na: 1\n---\n'),
    fc.array(fc.oneof(prose, wrapped, wrapped), { minLength: 1, maxLength: 6 }),
    fc.constantFrom('\n', '\n', '\r\n', '\r'),
  )
  .map(([head, parts, end]) => (head + parts.join('\n\n')).replaceAll('\n', end));
export const anyNote = fc.oneof(
  { weight: 4, arbitrary: soundNote },
  { weight: 2, arbitrary: fc.tuple(soundNote, damages).map(([note, edits]) => damaged(note, edits)) },
  { weight: 1, arbitrary: anyText },
);
