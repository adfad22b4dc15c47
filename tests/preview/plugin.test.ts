/** The markdown-it plugin: cards for infusion blocks wherever they stand, everything else as it was. */
import MarkdownIt from 'markdown-it';
import { describe, expect, it, vi } from 'vitest';
import { DEFAULT_POLICY, NO_NOTES } from '../../src/note/index.ts';
import { meniscusPreview } from '../../src/preview/plugin.ts';
import * as service from '../../src/service/index.ts';
import { readPolicyFile } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';
import { HOSTILE_TEXTS } from '../render/hostile-texts.ts';

vi.mock('../../src/service/index.ts', { spy: true });

const GASTRIC =
  'mixture gastric "Gastric replacement"\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL';

const plugged = (policyOf?: (env: unknown) => typeof DEFAULT_POLICY) =>
  new MarkdownIt().use(
    meniscusPreview,
    policyOf ? { workedUnder: (env: unknown) => ({ policy: policyOf(env), used: NO_NOTES }) } : {},
  );
const render = (source: string) => plugged().render(source);
const count = (text: string, part: string) => text.split(part).length - 1;
const timesWorked = () => vi.mocked(service.previewOf).mock.calls.length;

describe('an infusion block', () => {
  it('is shown as its lines, a card, figures, a table and the working folded away', () => {
    const shown = render(`# Note\n\n${fenced(GASTRIC)}`);
    expect(shown).toContain('<h2 class="meniscus-title">Gastric replacement');
    expect(shown).toContain('1 L sodium chloride 0.9%');
    // 1000 mL + 10 mL; 154 mmol ÷ 1.01 L = 152 mmol/L; 20 mmol ÷ 1.01 L = 19.8 mmol/L.
    for (const words of ['1010\u00A0mL', 'sodium 152\u00A0mmol', 'potassium 19.8\u00A0mmol', 'Isotonic in the bag'])
      expect(shown).toContain(words);
    expect(count(shown, '<svg')).toBe(3);
    expect(shown).toContain('<details><summary>How it was worked out</summary>');
    expect(shown).not.toMatch(/<script|\son\w+=|style="/);
  });

  // A byte order mark is taken off by whoever reads the file.
  it.each(wrappings.filter(({ name }) => !name.startsWith('byte order mark')))(
    'is found in or behind: $name',
    ({ wrap }) => {
      const shown = render(wrap(GASTRIC));
      expect(count(shown, 'Gastric replacement <span class="meniscus-aside">1010')).toBe(1);
    },
  );

  it('knows the other blocks of its note', () => {
    const shown = render(`${fenced(GASTRIC)}\nText.\n\n${fenced('mixture double\n  2 x gastric')}`);
    expect(shown).toContain('double <span class="meniscus-aside">2020');
  });

  it('has its findings where they belong', () => {
    const shown = render(fenced(`${GASTRIC}\n  claim sodium 145 mmol/L\n\nmixture half\n  1 L sodum chloride 0.9%`));
    const [first, second] = shown.split('<section').slice(1);
    expect(first).toContain('meniscus-finding meniscus-error');
    expect(first).toContain('is claimed to be 145\u00A0mmol/L');
    expect(second).toContain('no results');
    expect(second).toContain('Did you mean ‘sodium chloride’?');
    expect(count(shown, 'meniscus-finding')).toBe(2);
  });

  it('keeps what a note accepts, with its reason', () => {
    const accepted = 'mixture quarter\n  1 L 0.45 NS\n  accept ambiguous-name because "old label"';
    expect(render(fenced(accepted))).toContain('Accepted because ‘old label’');
  });

  it('that nothing closes is shown as far as it is read, and what it swallows as code', () => {
    const shown = render(`\`\`\`infusion\n${GASTRIC}\n\nSwallowed text.\n`);
    expect(shown).toContain('Gastric replacement <span class="meniscus-aside">1010');
    expect(shown).toMatch(/<pre><code class="language-infusion">[\s\S]*Swallowed text\.\n<\/code>/);
  });

  it('stays code when it is to be left alone, and when it says nothing that can be shown', () => {
    for (const note of [fenced(GASTRIC, { info: 'skip' }), fenced('# only a remark'), fenced('')])
      expect(render(note)).toBe(new MarkdownIt().render(note));
  });

  it('says the caution once, at the end', () => {
    const shown = render(`${fenced(GASTRIC)}\n${fenced('mixture b\n  1 L water')}`);
    expect(count(shown, 'Check against local policy')).toBe(1);
    expect(shown.indexOf('Check against local policy')).toBeGreaterThan(shown.lastIndexOf('<table'));
  });

  it.each(HOSTILE_TEXTS)('shows what is written and does nothing else: %j', (text) => {
    const shown = render(
      fenced(
        `mixture bag "${text.replace(/["\r\n]/g, ' ')}"\n  1 L water\n  5 mL "${text.replace(/["\r\n]/g, ' ')}" by volume`,
      ),
    );
    const tags = new Set([...shown.matchAll(/<\/?([a-z0-9]+)/g)].map(([, tag]) => tag!));
    for (const tag of ['script', 'img', 'a', 'b', 'iframe']) expect(tags.has(tag)).toBe(false);
    expect(shown).not.toMatch(/<[^>]*\son\w+=/);
  });
});

describe('orders, patients and comparisons', () => {
  const note = fenced(
    [
      GASTRIC,
      'patient adult "Bed 4"',
      '  weight 68 kg',
      '  height 165 cm',
      '  age 54 y',
      '  sex female',
      '  serum sodium 134 mmol/L',
      'give gastric at 60 mL/h for 16 h by peripheral vein to adult as replacement',
      '  show sodium',
      'compare gastric, dextrose 5% by sodium, osmolarity',
    ].join('\n'),
  );
  const shown = render(note);

  it('have their cards and figures', () => {
    for (const kind of ['where-it-goes', 'sodium-course', 'comparison'])
      expect(count(shown, `meniscus-figure meniscus-${kind}`)).toBe(1);
    for (const title of ['Bed 4', 'replacement', 'Side by side']) expect(shown).toContain(`meniscus-title">${title}`);
    // 60 mL/h × 16 h = 960 mL of 152.48 mmol/L.
    expect(shown).toContain('replacement: 146\u00A0mmol');
  });

  it('are ordered by effective osmolarity in the comparison’s figure', () => {
    const figure = shown.slice(shown.indexOf('meniscus-comparison'));
    expect(figure.indexOf('dextrose 5%')).toBeLessThan(figure.indexOf('gastric'));
  });

  it('has headings that step down one at a time, and ids that come once', () => {
    const levels = [...render(`# A\n\n### B\n\n${note}`).matchAll(/<h(\d)/g)].map(([, level]) => Number(level));
    expect(new Set(levels.slice(2))).toEqual(new Set([4]));
    const ids = [...shown.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe('everything else', () => {
  const others =
    '# A\n\n```js\nlet infusion = 1;\n```\n\n~~~infusion-like\nx\n~~~\n\n    ```infusion\n    y\n\n<b>raw</b>\n';

  it('is drawn as before', () => {
    expect(render(others)).toBe(new MarkdownIt().render(others));
  });

  it('goes to the renderer that was there before', () => {
    const md = new MarkdownIt();
    md.renderer.rules.fence = (tokens, index) => `<other>${tokens[index]!.info}</other>`;
    md.use(meniscusPreview);
    const shown = md.render(`\`\`\`js\n1\n\`\`\`\n\n${fenced(GASTRIC)}`);
    expect(shown).toContain('<other>js</other>');
    expect(shown).not.toContain('<other>infusion</other>');
  });

  it('keeps the attributes that others put on a fence, such as the line for scrolling', () => {
    const md = plugged();
    md.core.ruler.push('lines', ({ tokens }) => {
      for (const token of tokens) if (token.type === 'fence') token.attrSet('data-line', String(token.map![0]));
    });
    expect(md.render(`a\n\n${fenced(GASTRIC)}`)).toContain('<div data-line="2"><div class="meniscus-block">');
  });

  it('is left as code where the two readers of Markdown disagree about a fence', () => {
    vi.mocked(service.previewOf).mockReturnValueOnce([]);
    const note = fenced('mixture elsewhere\n  1 L water');
    expect(render(note)).toBe(new MarkdownIt().render(note));
  });
});

describe('numbers in prose', () => {
  it('are text with a title, and no link', () => {
    const shown = render('It holds [77 **mmol/L**](infusion:half-saline/sodium), see [there](https://example.org).');
    expect(shown).toBe(
      '<p>It holds <span class="meniscus-value" title="worked out: half-saline, sodium">77 <strong>mmol/L</strong></span>, see <a href="https://example.org">there</a>.</p>\n',
    );
  });

  it('cannot leave their title', () => {
    const shown = render('[1](<infusion:a/"><script>alert(1)</script>>) [2](infusion:%E0%A4%A)');
    expect(shown).not.toContain('<script');
    expect(count(shown, 'meniscus-value')).toBeLessThanOrEqual(2);
  });
});

describe('rendering', () => {
  it('twice gives the same, and works the note out once for a text and a policy', () => {
    const md = plugged();
    const note = `${fenced(GASTRIC)}\n${fenced('mixture b\n  1 L water')}\n${fenced('mixture c\n  2 L water')}`;
    const before = timesWorked();
    const first = md.render(note);
    expect(md.render(note)).toBe(first);
    expect(timesWorked() - before).toBe(1);
    const tokens = md.parse(note, {});
    expect(md.renderer.render(tokens, md.options, {})).toBe(first);
    expect(md.renderer.render(tokens, md.options, {})).toBe(first);
    expect(timesWorked() - before).toBe(1);
  });

  it('does not work a note out in which nothing is to be shown', () => {
    const before = timesWorked();
    render('# Infusion\n\n```js\n1\n```\n');
    expect(timesWorked()).toBe(before);
  });

  it('is under the policy of the note that is drawn', () => {
    const { policy } = readPolicyFile('{ "terms": { "sugar": "glucose" } }');
    const md = plugged((env) => ((env as { local?: boolean }).local ? policy : DEFAULT_POLICY));
    const note = fenced('mixture sugar\n  1 L dextrose 5%');
    expect(md.render(note, { local: true })).toContain('<th scope="row">glucose</th>');
    expect(md.render(note, { local: false })).toContain('<th scope="row">dextrose</th>');
  });

  it('of a note of a megabyte works it out once', () => {
    const chapters = Array.from({ length: 200 }, (_, index) =>
      [
        `## Chapter ${index}`,
        'A line of prose that is read by nobody. '.repeat(120),
        fenced(`mixture m${index}\n  1 L water`),
      ].join('\n\n'),
    );
    const note = chapters.join('\n');
    expect(note.length).toBeGreaterThan(900_000);
    const before = timesWorked();
    const shown = render(note);
    expect(timesWorked() - before).toBe(1);
    expect(count(shown, 'meniscus-block')).toBe(200);
  });
});
