/** Notes and policies that hold a hostile text in every place where a note takes words. */
import { HOSTILE_TEXTS } from '../render/hostile-texts.ts';

/** Besides those that mean something to one medium: break-outs, addresses that do things, characters that deceive the eye. */
export const HOSTILE: readonly string[] = [
  ...HOSTILE_TEXTS,
  '"><script>alert(1)</script>',
  "' onmouseover='alert(1)",
  '" onfocus="alert(1)" autofocus="',
  '</style><script>alert(1)</script>',
  '</textarea></pre></code></svg><script>alert(1)</script>',
  '<svg><script>alert(1)</script></svg>',
  '<svg onload=alert(1)><set attributeName=href to=javascript:alert(1)></svg>',
  '<math><mtext></mtext><mglyph><style><img src=x onerror=alert(1)></style></math>',
  '<a href="javascript:alert(1)">x</a><iframe srcdoc="<script>alert(1)</script>">',
  '<base href=//x.example/><meta http-equiv=refresh content=0;url=//x.example>',
  '<link rel=stylesheet href=//x.example/x.css><style>@import "//x.example"</style>',
  '<form action=//x.example><input name=x></form>',
  '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>&e;',
  '<![CDATA[<b>]]>',
  '--> <script>alert(1)</script> <!--',
  '[x](command:workbench.action.terminal.new?%5B%5D)',
  '[x](<command:run>) [x][c] [c]: command:run',
  '[x](vscode://x.y/run) [x](vscode-insiders:x) [x](file:///etc/passwd)',
  '[x](javascript:alert(1)) [x](JaVaScRiPt&colon;alert(1)) [x](java&#x0a;script:alert(1))',
  '[x](data:text/html;base64,PHNjcmlwdD4=) ![x](data:image/svg+xml;base64,PHN2Zz4=)',
  '![x](https://x.example/x.png "title") ![](\\\\x.example\\share)',
  '<command:run> <vscode://x.y/z> <mailto:a@x.example>',
  '$(terminal) $(sync~spin) $(rm -rf)',
  '\u061cx\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069y',
  's\u043edium chl\u03bfride',
  'so\u200bdi\u200cum\u200d \u2060chlo\ufeffride\u00ad',
  '\ud800 \udfff \ufffe \uffff \u0000',
  '\u001b]8;;https://x.example\u0007link\u001b]8;;\u0007 \u001b[2J \u009b2J \u0090q\u009c \u0007',
  '{{constructor.constructor("alert(1)")()}} <%= 1 %> #{1}',
  '__proto__',
  'constructor',
  'toString',
  '=1+1',
  '@SUM(A1)',
  'a'.repeat(3000),
];

/** In one line: block lines end where the text would. */
const line = (text: string) => text.replace(/[\r\n\u2028\u2029]/g, ' ');
/** Between quotation marks. */
const quoted = (text: string) => `"${line(text).replace(/["“”„‟]/g, "'")}"`;

/** `places` is the block; what stands round it has the text in prose, a link, a table, an info string and a remark. */
export function hostileNote(text: string): string {
  const words = line(text);
  return [
    `# ${words}`,
    '',
    `Text ${words} and [1 mmol/L](infusion:bag/sodium) [${words}](infusion:bag/${words}) [2](<infusion:${words}>).`,
    '',
    '<!-- infusion:compare bag, cup by sodium -->',
    '<!-- /infusion -->',
    '',
    '```infusion',
    `use ${words}`,
    `use ${quoted(`./${text}.md`)}`,
    `mixture bag ${quoted(text)}   # ${words}`,
    '  1 L sodium chloride 0.9%',
    `  5 mL ${quoted(text)} by volume`,
    '  claim sodium 1 mmol/L',
    `  accept claim-mismatch because ${quoted(text)}`,
    '  show sodium, osmolarity',
    `mixture cup ${quoted(text)}`,
    '  1 L sodium chloride 0.45%',
    `substance ${words}`,
    `stock ward ${quoted(text)}`,
    '  sodium 100 mmol/L',
    '  chloride 100 mmol/L',
    `mixture ${words}`,
    `  1 ${words} water`,
    `  1 L ${words}`,
    `  show ${words}`,
    `  ${words}`,
    `patient adult ${quoted(text)}`,
    '  weight 70 kg',
    '  serum sodium 130 mmol/L',
    `  ${words} 7 ${words}`,
    'give 500 mL bag over 4 h by central vein to adult as drip',
    `  accept volume-added because ${quoted(text)}`,
    `give 500 mL ${words} over 4 h to ${words} as ${words}`,
    'compare bag, cup by sodium',
    '```',
    '',
    `\`\`\`infusion ${words.replaceAll('`', "'")}`,
    'mixture other',
    '  1 L water',
    '```',
    '',
    `    ${words}`,
    '',
  ].join('\n');
}

export function hostilePolicy(text: string): string {
  return JSON.stringify({
    region: text,
    terms: { sugar: text, [text]: text },
    formulary: [text, `./${text}.md`],
    severities: { [text]: text, 'volume-added': text },
    limits: {
      'peripheral-osmolarity': { limit: '200 mOsm/L', source: text === '' ? 'x' : text, date: '2026-03-01' },
      [text]: { limit: text, source: text },
    },
    [text]: text,
  });
}
