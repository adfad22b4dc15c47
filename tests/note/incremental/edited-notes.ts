/** Notes of every kind of line, and edits of them. */
import fc from 'fast-check';

const NAMES = ['bag', 'base', 'half', 'salt', 'bed', 'drip'];
const name = fc.constantFrom(...NAMES);
const amount = fc.constantFrom('1 L', '500 mL', '250 mL ± 10%', '20 mL', '3 x 50 mL', '? mL', '0 mL', '1.0 L', '5 mg');
const strength = fc.constantFrom('0.9%', '0.45%', '77 mmol/L', '8.4% ± 2%', '3 mg', '');
const fluid = fc.oneof(
  fc
    .tuple(fc.constantFrom('sodium chloride', 'dextrose', 'potassium chloride', 'NaCl', 'thiosalt'), strength)
    .map((parts) => parts.join(' ').trim()),
  name,
  name,
  fc.constantFrom('water', "lactated Ringer's", 'D5W', 'ns', 'gastric', 'broken', 'nothing known', 'baag'),
);
const asked = fc.constantFrom(
  'sodium',
  'osmolarity',
  'free water',
  'volume',
  'tonicity in the body',
  'thiosulfate',
  'rate',
);
const number = fc.constantFrom('77 mmol/L', '154 mmol/L', '1 L', '300 mOsm/L', '250 mL', 'isotonic', '0.5', '100 mL/h');

const line = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(amount, fluid).map(([much, of]) => `  ${much} ${of}`) },
  {
    weight: 4,
    arbitrary: fc.tuple(fc.constantFrom('mixture', 'mixture', 'stock'), name).map((words) => words.join(' ')),
  },
  fc.tuple(fc.constantFrom('20 mmol', '10 mEq', '5 g'), fluid).map(([much, of]) => `  ${much} ${of}`),
  fluid.map((of) => `  make up to 1 L with ${of}`),
  fc.constantFrom(
    '  withdraw 100 mL',
    '  withdraw 5 L',
    '  target sodium 100 mmol/L',
    '  sodium 140 mmol/L',
    '  chloride 140 mmol/L',
  ),
  fc.tuple(asked, number).map((words) => `  claim ${words.join(' ')}`),
  fc.tuple(name, asked, number).map((words) => `claim ${words.join(' ')}`),
  fc.tuple(asked, asked).map((items) => `  show ${items.join(', ')}`),
  fc.tuple(name, asked).map((words) => `show ${words.join(' ')}`),
  fc.tuple(name, asked).map(([of, what]) => `ask "Will it?" show ${of} ${what}`),
  fc.tuple(name, asked).map(([of, what]) => `what if ${of} withdraw 50 mL, 100 mL show ${what}`),
  fc.tuple(asked, asked).map(([one, other]) => `what if bed weight 40 kg or 70 kg show ${one}, ${other}`),
  fc.tuple(fluid, fluid, asked).map(([one, other, by]) => `compare ${one}, ${other} by ${by}`),
  fc.constantFrom(
    'substance thiosalt',
    'substance salt',
    '  molar mass 158 g/mol',
    '  gives sodium 2, thiosulfate 2- 1',
    '  gives thiosulfate 1',
  ),
  fc.constantFrom(
    'patient bed',
    'patient child',
    '  weight 70 kg',
    '  weight 0 kg',
    '  age 50 y',
    '  sex male',
    '  serum sodium 112 mmol/L',
    '  serum potassium 6 mmol/L',
  ),
  fc
    .tuple(
      fluid,
      fc.constantFrom('100 mL/h', '2 mL/kg/h', '10 mmol/h'),
      fc.constantFrom('', ' over 2 h', ' for 5 h', ' every 6 h'),
      fc.constantFrom(' to bed', ' to child', ' to nobody', ''),
      fc.constantFrom('', ' as drip', ' after drip', ' by central vein', ' by peripheral vein'),
    )
    .map(([of, rate, time, whom, rest]) => `give ${of} at ${rate}${time}${whom}${rest}`),
  fc
    .tuple(fc.constantFrom('500 mL', '1 L', '2 x 50 mL'), fluid, fc.constantFrom(' to bed', ' to bed over 1 h', ''))
    .map(([much, of, rest]) => `give ${much} ${of}${rest}`),
  fc.constantFrom(
    '  accept volume-added because "counted"',
    '  accept nominal-claim because "label"',
    '  accept potassium-rate because "watched"',
    '  accept nothing-such because "x"',
    '  accept volume-added',
  ),
  fc.constantFrom(
    'use ./formulary.md',
    'use ./other.md',
    'use ./none.md',
    '',
    '# a remark',
    'mixture',
    '  500 mL',
    '  1.0 L water',
  ),
);

const INFO = ['infusion', 'infusion', 'infusion', 'infusion', 'infusion alone', 'infusion skip', 'infusion odd'];

/** A block, in nothing or in a container. */
const block = fc
  .tuple(
    fc.constantFrom(...INFO),
    fc.array(line, { minLength: 1, maxLength: 9 }),
    fc.constantFrom('', '', '', '- ', '> ', '1. > '),
    fc.constantFrom('```', '```', '```', '```', ''),
  )
  .map(([info, lines, prefix, close]) => {
    const rest = prefix.replace(/\S/g, (mark) => (mark === '>' ? '>' : ' '));
    const all = [`\`\`\`${info}`, ...lines, ...(close ? [close] : [])];
    return all.map((text, index) => (index === 0 ? prefix : rest) + text).join('\n');
  });

const bound = fc
  .tuple(
    number,
    fc.constantFrom(...NAMES, 'gastric', 'nobody'),
    fc.constantFrom('sodium', 'osmolarity', 'volume', 'free-water', 'nothing'),
  )
  .map(([text, of, result]) => `The bag holds [${text}](infusion:${of}/${result}) as made up.`);

const prose = fc.constantFrom(
  'Plain words about an infusion.',
  '# A heading',
  '- an item\n- another',
  '> quoted',
  '[ref]: infusion:bag/sodium',
  'See [154 mmol/L][ref] and [ref].',
  '<!-- infusion: compare bag, base by sodium -->\n| a | b |\n|---|---|\n<!-- /infusion -->',
  '<!-- open',
  '-->',
  '<div>',
  '~~~',
  '    indented',
  '---',
  'Give 5.0 mg q.d. and .5 mL.',
);

const part = fc.oneof(
  { weight: 5, arbitrary: block },
  { weight: 2, arbitrary: bound },
  { weight: 3, arbitrary: prose },
);

export const notes = fc
  .tuple(
    fc.constantFrom('', '', '', '---\ntitle: a\n---\n', '\uFEFF', '---\nopen\n'),
    fc.array(part, { minLength: 1, maxLength: 8 }),
    fc.constantFrom('\n', '\n', '\n', '\r\n', '\r'),
  )
  .map(([head, parts, end]) => (head + parts.join('\n\n')).replace(/\n/g, end));

export interface NoteEdit {
  /** Where it begins, as a share of the note. */
  readonly at: number;
  readonly removed: number;
  readonly text: string;
  /** Whether it begins at the next line's start. */
  readonly atLine: boolean;
}

const typed = fc.constantFrom(...'0123456789. abegls-`~>\n'.split(''), '');

export const edits: fc.Arbitrary<NoteEdit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  removed: fc.oneof({ weight: 6, arbitrary: fc.constantFrom(0, 1) }, { weight: 1, arbitrary: fc.nat(200) }),
  text: fc.oneof(
    { weight: 6, arbitrary: typed },
    { weight: 2, arbitrary: line.map((text) => `${text}\n`) },
    { weight: 1, arbitrary: part.map((text) => `\n\n${text}\n\n`) },
    {
      weight: 1,
      arbitrary: fc.constantFrom('```\n', '```infusion\n', '<!--', '-->', '\r', '[ref]: infusion:base/sodium\n'),
    },
  ),
  atLine: fc.boolean(),
});

export function edited(source: string, { at, removed, text, atLine }: NoteEdit): string {
  const near = Math.floor(at * source.length);
  const lineEnd = atLine ? source.slice(near).search(/[\r\n]/) : -1;
  const start = lineEnd < 0 ? near : near + lineEnd + 1;
  return source.slice(0, start) + text + source.slice(start + removed);
}

/** The notes that they may use, by their paths from the folder. */
export const OTHERS: ReadonlyMap<string, string> = new Map([
  [
    'formulary.md',
    '```infusion\nmixture gastric\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL\n\nmixture broken\n  1 L nothing known\n\nsubstance thiosalt\n  molar mass 158 g/mol\n  gives sodium 2, thiosulfate 2- 1\n```\n',
  ],
  ['other.md', '```infusion\nmixture gastric\n  1 L water\n\nmixture base\n  1 L dextrose 5%\n```\n'],
]);

/** The same after they were edited. */
export const OTHERS_LATER: ReadonlyMap<string, string> = new Map([
  ...OTHERS,
  ['other.md', '```infusion\nmixture gastric\n  2 L nothing known\n\nmixture bag\n  1 L dextrose 5%\n```\n'],
]);

const many = 9;
const index = fc.nat(many - 1);
const volume = fc.constantFrom('100 mL', '250 mL', '500 mL', '1 L', '500 mL ± 5%');

/** A few lines that are right where the things they name are: `m0`, `p1`, `o2` and so on by their number. */
const thing = fc.oneof(
  {
    weight: 5,
    arbitrary: fc
      .tuple(
        volume,
        fc.option(index),
        fc.option(fc.constantFrom('10 mmol potassium chloride', '2 g thiosalt')),
        volume,
        index,
      )
      .map(([first, of, more, second, claimed]) => (number: number) => [
        `mixture m${number}`,
        `  ${first} sodium chloride 0.9%`,
        ...(of === null ? [] : [`  ${second} m${of}`]),
        ...(more === null ? [] : [`  ${more}`]),
        ...(claimed < 3
          ? ['  claim sodium 154 mmol/L']
          : claimed < 5
            ? ['  accept volume-added because "so made"']
            : []),
      ]),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(index, fc.option(index), fc.option(index), fc.constantFrom('100 mL/h', '5 mmol/h of sodium', '20 mL/h'))
      .map(([of, whom, after, rate]) => (number: number) => [
        `give m${of} at ${rate} for 5 h by central vein${whom === null ? '' : ` to p${whom}`} as o${number}${after === null ? '' : ` after o${after}`}`,
        '  show sodium, volume',
        ...(whom === null ? [] : ['  show predicted sodium']),
      ]),
  },
  {
    weight: 2,
    arbitrary: fc
      .constantFrom('130', '112', '140')
      .map((sodium) => (number: number) => [
        `patient p${number}`,
        '  weight 70 kg',
        '  age 50 y',
        '  sex male',
        '  height 170 cm',
        `  serum sodium ${sodium} mmol/L`,
        '  show predicted sodium',
      ]),
  },
  fc.tuple(index, index).map(([one, other]) => () => [
    `show m${one} osmolarity`,
    `compare m${one}, m${other} by sodium`,
  ]),
  fc.constant(() => ['substance thiosalt', '  molar mass 158 g/mol', '  gives sodium 2, thiosulfate 2- 1']),
  fc.constantFrom(['use ./formulary.md'], ['use ./other.md']).map((lines) => () => lines),
  index.map((of) => (number: number) => [
    'stock s',
    '  sodium 140 mmol/L',
    '  chloride 140 mmol/L',
    `mixture m${number}`,
    '  500 mL s',
    `  100 mL m${of}`,
  ]),
);

/** Notes of which most comes to something, in blocks that rest on each other in any order. */
export const soundNotes = fc
  .tuple(
    fc.array(fc.tuple(thing, fc.constantFrom('infusion', 'infusion', 'infusion', 'infusion', 'infusion alone')), {
      minLength: 3,
      maxLength: many,
    }),
    index,
    fc.constantFrom('\n', '\n', '\r\n'),
  )
  .map(([things, linked, end]) => {
    const blocks = things.map(([lines, info], number) => `\`\`\`${info}\n${lines(number).join('\n')}\n\`\`\``);
    const link = `The bag holds [154 mmol/L](infusion:m${linked}/sodium), and [100 mL](infusion:o${linked}/volume) goes in.`;
    return [...blocks, link].join('\n\nWords.\n\n').replace(/\n/g, end);
  });

/** A digit becomes another one: what rests on the number is to follow, and a name is to lead elsewhere. */
export interface DigitEdit {
  readonly which: number;
  readonly digit: string;
}

export const digits: fc.Arbitrary<DigitEdit> = fc.record({
  which: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
  digit: fc.constantFrom(...'0123456789'),
});

export function withDigit(source: string, { which, digit }: DigitEdit): string {
  const places = Array.from(source.matchAll(/\d/g), ({ index: at }) => at);
  const at = places[Math.floor(which * places.length)];
  return at === undefined ? source : source.slice(0, at) + digit + source.slice(at + 1);
}

/** Something is typed or taken away where no block is, or a remark is written into one: what the blocks say stays. */
export interface SideEdit {
  readonly where: 'prose' | 'remark';
  /** The line and the place in it, as shares. */
  readonly line: number;
  readonly at: number;
  readonly removed: number;
  readonly text: string;
}

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });

export const sideEdits: fc.Arbitrary<SideEdit> = fc.record({
  where: fc.constantFrom('prose', 'prose', 'prose', 'remark'),
  line: share,
  at: share,
  removed: fc.constantFrom(0, 0, 0, 1, 5),
  text: fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom('a', ' ', '.', '5', 'words', '\n', '\n\n', '') },
    { weight: 3, arbitrary: fc.constantFrom('gastric', 'gastric', 'broken', 'm1', 'base').map(linked) },
    { weight: 1, arbitrary: prose.map((text) => `\n\n${text}\n\n`) },
    { weight: 1, arbitrary: fc.constantFrom('Give .5 mL', '[ref]: infusion:m1/sodium\n', ']', '(infusion:m2/volume)') },
  ),
});

function linked(of: string): string {
  return `See [154 mmol/L](infusion:${of}/sodium).`;
}

/** A remark goes to the end of a line of a block; what is typed in it stays on that line. */
export function withSideEdit(source: string, { where, line: chosen, at, removed, text }: SideEdit): string {
  const lines = Array.from(source.matchAll(/[^\r\n]*(?:\r\n|\r|\n|$)/g), ({ index, 0: whole }) => ({
    start: index,
    text: whole.replace(/[\r\n]+$/, ''),
  }));
  let inside = false;
  const fits = lines.filter((one) => {
    const isFence = /^[\s>*+\-.)\d]*(?:`{3}|~{3})/.test(one.text);
    if (isFence) inside = !inside;
    return !isFence && inside === (where === 'remark');
  });
  const one = fits[Math.floor(chosen * fits.length)];
  if (!one) return source;
  if (where === 'remark') {
    const end = one.start + one.text.length;
    const words = one.text.includes('#') ? text : ` # ${text}`;
    return source.slice(0, end) + words.replace(/[\r\n]+/g, ' ') + source.slice(end);
  }
  const start = one.start + Math.floor(at * (one.text.length + 1));
  const end = Math.min(start + removed, one.start + one.text.length);
  return source.slice(0, start) + text + source.slice(end);
}
