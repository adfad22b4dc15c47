/** The formats of `meniscus check`, held against readers of those formats by other people. */
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import sarifSchema from '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json' with { type: 'json' };
import { DOMParser, type Element, onErrorStopParsing } from '@xmldom/xmldom';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { FORMATS } from '../../src/cli/arguments/check.ts';
import { readArguments } from '../../src/cli/arguments/index.ts';
import { check } from '../../src/cli/check.ts';
import { GithubReporter } from '../../src/cli/github-report.ts';
import { JsonReporter } from '../../src/cli/json-report.ts';
import { Progress } from '../../src/cli/progress.ts';
import { isColoured } from '../../src/cli/report.ts';
import { NOTHING } from '../../src/cli/summary.ts';
import { TextReporter } from '../../src/cli/text-report.ts';
import { reportOf } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';

const REASON = 'kept & <noted>: so, 50%';
/** A name that every format has to escape: `50%, #1: a "b" <c>.md`. */
const ODD = 'a ward/50%, #1: a "b" <c>.md';

let folder = '';
const before = process.cwd();

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'meniscus-reports-'));
  await mkdir(join(folder, 'notes/a ward'), { recursive: true });
  process.chdir(join(folder, 'notes'));
  await writeFile('clean.md', fenced('mixture bag\n  1 L sodium chloride 0.9%'));
  await writeFile('words.md', '# Words alone\n');
  await writeFile('twice.md', fenced('mixture bag\n  1 L sodium chloride 0.9%\nmixture bag\n  1 L water'));
  await writeFile(
    'kept.md',
    fenced(`mixture bag\n  1 L sodium chloride 0.9%\n  100 mL water\n  accept volume-added because "${REASON}"`),
  );
  await writeFile(ODD, fenced('mixture bag "😀"\n  1 L 0.45 NS # 😀\n  1 L ‘]]><!--\u0001\u0007\uFFFE{0}[a](b)’'));
  await writeFile('bytes.md', Buffer.from([0xc3, 0x28]));
  await writeFile(join(folder, 'outside.md'), fenced('mixture bag\n  1 L sodum chloride 0.9%'));
});

afterAll(async () => {
  process.chdir(before);
  await rm(folder, { recursive: true, force: true });
});

async function run(...argv: string[]) {
  const given = readArguments(['check', ...argv]);
  if (given.command !== 'check') throw new Error(JSON.stringify(given));
  const writes: string[] = [];
  let err = '';
  const code = await check(given, {
    out: { write: (text) => writes.push(text) },
    err: { write: (text) => (err += text) },
  });
  return { code, out: writes.join(''), err, writes };
}

/** Every finding of the folder as `path:line:column code`, those that are accepted as well. */
async function told(): Promise<readonly string[]> {
  const { files } = JSON.parse((await run('.', '--format', 'json')).out);
  return files.flatMap(({ path, diagnostics }: { path: string; diagnostics: Located[] }) =>
    diagnostics.map(({ code, range }) => `${path}:${range.start.line + 1}:${range.start.character + 1} ${code}`),
  );
}

interface Located {
  readonly code: string;
  readonly range: { readonly start: { readonly line: number; readonly character: number } };
}

describe('every format', () => {
  it.each(FORMATS)('writes %s note by note, and says on standard error what could not be read', async (format) => {
    const { code, err, writes } = await run('.', '--format', format);
    expect(code).toBe(2);
    expect(err).toBe('meniscus: bytes.md: is not UTF-8 text (line 1); save it as UTF-8\n');
    // At least the three notes in which something is found.
    expect(writes.length).toBeGreaterThanOrEqual(3);
  });

  it.each(FORMATS)('ends with 1 on %s where something fails, else with 0', async (format) => {
    expect((await run('twice.md', '--format', format)).code).toBe(1);
    expect((await run('clean.md', '--format', format)).code).toBe(0);
  });
});

describe('JSON', () => {
  it.each([['.'], ['words.md'], ['kept.md']])(
    'written note by note is the object written at once: %s',
    async (path) => {
      const { out } = await run(path, '--format', 'json');
      expect(out).toBe(`${JSON.stringify(JSON.parse(out), null, 2)}\n`);
      expect(Object.keys(JSON.parse(out))).toEqual(['version', 'files', 'summary']);
    },
  );

  it('is an object without files too', async () => {
    const json = new JsonReporter();
    const { policies: _, ...summary } = NOTHING;
    const out = json.begin() + json.end({ summary: NOTHING, exitCode: 0 });
    expect(out).toBe(`${JSON.stringify({ version: 1, files: [], summary }, null, 2)}\n`);
  });

  it('tells of an accepted finding its code, line and reason', async () => {
    const { out } = await run('kept.md', '--format', 'json');
    expect(JSON.parse(out).files[0].accepted).toEqual([{ code: 'volume-added', line: 3, reason: REASON }]);
  });
});

// The schema that OASIS published for SARIF 2.1.0, as the package @microsoft/jest-sarif carries it.
describe('SARIF', () => {
  const logOf = async (...argv: string[]) => JSON.parse((await run(...argv, '--format', 'sarif')).out);
  // Written for draft 4 of JSON Schema, whose `id` and `$schema` later readers do not know.
  const { $schema: _, id: __, ...schema } = sarifSchema;
  const ajv = new Ajv({ strict: false, validateSchema: false, unicodeRegExp: false, allErrors: true });
  ajv.addFormat('uri', (text) => URL.canParse(text));
  ajv.addFormat('uri-reference', (text) => URL.canParse(text, 'file:///base/') && !/[\s"<>\\^`{|}]/.test(text));
  ajv.addFormat('date-time', (text) => !Number.isNaN(Date.parse(text)));
  const validate = ajv.compile(schema);
  const valid = (log: unknown) => {
    validate(log);
    expect(validate.errors ?? []).toEqual([]);
  };

  it.each([['.'], ['clean.md'], ['../outside.md'], [ODD]])('of %s is valid', async (path) => {
    valid(await logOf(path));
  });

  it('is refused by the validator when it is not valid', () => {
    expect(() => valid({ version: '2.1.0', runs: [{ results: [] }] })).toThrow();
  });

  it('has every finding at its place, in UTF-16 columns, and its rule', async () => {
    const [{ results, tool, columnKind }] = (await logOf('.')).runs;
    expect(columnKind).toBe('utf16CodeUnits');
    const places = results
      .filter(({ suppressions }: { suppressions: unknown[] }) => suppressions.length === 0)
      .map(({ ruleId, ruleIndex, locations: [{ physicalLocation }] }: SarifResult) => {
        const { artifactLocation, region } = physicalLocation;
        expect(tool.driver.rules[ruleIndex].id).toBe(ruleId);
        expect(artifactLocation.uriBaseId).toBe('%SRCROOT%');
        return `${decodeURIComponent(artifactLocation.uri)}:${region.startLine}:${region.startColumn} ${ruleId}`;
      });
    expect(places).toEqual(await told());
    for (const rule of tool.driver.rules) expect(rule.help.markdown.length).toBeGreaterThan(20);
  });

  it('has addresses that lead to the file, percent-encoded, below the working directory or absolute', async () => {
    const uriOf = async (path: string) =>
      (await logOf(path)).runs[0].results[0].locations[0].physicalLocation.artifactLocation;
    const odd = await uriOf(ODD);
    expect(odd.uri).toMatch(/^[\w./%-]+$/);
    const base = pathToFileURL(`${process.cwd()}/`);
    expect(fileURLToPath(new URL(odd.uri, base))).toBe(join(process.cwd(), ODD));
    expect(await uriOf('../outside.md')).toEqual({ uri: pathToFileURL(join(folder, 'outside.md')).href });
  });

  it('has the other place of two equal names', async () => {
    const [{ results }] = (await logOf('twice.md')).runs;
    expect(results[0].relatedLocations[0].physicalLocation.region).toMatchObject({ startLine: 2, startColumn: 9 });
  });

  it('has accepted findings as suppressed results with the reason', async () => {
    const [{ results }] = (await logOf('kept.md')).runs;
    const suppressed = results.filter(({ suppressions }: { suppressions: unknown[] }) => suppressions.length > 0);
    expect(suppressed).toMatchObject([
      {
        ruleId: 'volume-added',
        level: 'warning',
        suppressions: [{ kind: 'inSource', status: 'accepted', justification: REASON }],
      },
    ]);
  });

  it('has no placeholder and no link in a message, whatever a note says', async () => {
    const { results } = (await logOf(ODD)).runs[0];
    const messages = results.map(({ message }: { message: { text: string } }) => message.text).join('\n');
    expect(messages).toContain('{{0}}');
    expect(messages).not.toContain('](');
  });

  it('says what could not be read, and that the run was not whole', async () => {
    const [{ invocations }] = (await logOf('bytes.md', 'clean.md')).runs;
    expect(invocations).toMatchObject([
      {
        executionSuccessful: false,
        exitCode: 2,
        toolExecutionNotifications: [{ level: 'error', message: { text: expect.stringContaining('bytes.md') } }],
      },
    ]);
  });
});

interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly locations: readonly [
    {
      readonly physicalLocation: {
        readonly artifactLocation: { readonly uri: string; readonly uriBaseId: string };
        readonly region: { readonly startLine: number; readonly startColumn: number };
      };
    },
  ];
}

// XML 1.0 (W3C, fifth edition), production 2, says which characters a document may hold.
describe('JUnit', () => {
  const suitesOf = async (...argv: string[]) => {
    const { out } = await run(...argv, '--format', 'junit');
    expect(out).toMatch(/^[\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]*$/u);
    const { documentElement } = new DOMParser({ onError: onErrorStopParsing }).parseFromString(out, 'text/xml');
    return [...documentElement!.getElementsByTagName('testsuite')];
  };
  const all = (suite: Element, name: string) => [...suite.getElementsByTagName(name)];

  it('has one suite a note, well-formed and counted, whatever stands in the note and its name', async () => {
    const suites = await suitesOf('.');
    expect(suites.map((suite) => suite.getAttribute('name'))).toEqual([
      ODD,
      'not read',
      'clean.md',
      'kept.md',
      'twice.md',
      'words.md',
    ]);
    for (const suite of suites) {
      const counts = { testcase: 'tests', failure: 'failures', error: 'errors', skipped: 'skipped' };
      for (const [element, count] of Object.entries(counts))
        expect(all(suite, element)).toHaveLength(Number(suite.getAttribute(count)));
      expect(all(suite, 'testcase').length).toBeGreaterThan(0);
    }
    expect(suites[0]!.textContent).toContain(']]><!--  \uFFFD{0}');
  });

  it('has failures at and above the severity that fails', async () => {
    const failures = async (...argv: string[]) => all((await suitesOf(ODD, ...argv))[0]!, 'failure').length;
    const { diagnostics } = JSON.parse((await run(ODD, '--format', 'json')).out).files[0];
    const count = (...severities: string[]) =>
      diagnostics.filter(({ severity }: { severity: string }) => severities.includes(severity)).length;
    expect(count('warning')).toBeGreaterThan(0);
    expect(await failures()).toBe(count('error'));
    expect(await failures('--fail-on', 'warning')).toBe(count('error', 'warning'));
  });

  it('has errors for what could not be read, and skips what is accepted with its reason', async () => {
    const [bytes, kept] = await suitesOf('bytes.md', 'kept.md');
    expect(all(bytes!, 'error')[0]!.getAttribute('message')).toContain('is not UTF-8');
    expect(all(kept!, 'skipped')[0]!.getAttribute('message')).toContain(`accepted because ‘${REASON}’`);
  });
});

// The escapes are those of GitHub's toolkit (github.com/actions/toolkit, packages/core/src/command.ts), undone here as its
// runner undoes them: `%25` last.
describe('GitHub annotations', () => {
  const unescaped = (text: string) =>
    text
      .replaceAll('%2C', ',')
      .replaceAll('%3A', ':')
      .replaceAll('%0A', '\n')
      .replaceAll('%0D', '\r')
      .replaceAll('%25', '%');
  const read = (line: string) => {
    const [, command, properties, text] = /^::(\w+) ([^:]*)::(.*)$/.exec(line)!;
    const pairs = properties!.split(',').map((pair) => pair.split('='));
    return { command, text, ...Object.fromEntries(pairs.map(([key, value]) => [key, unescaped(value!)])) };
  };
  const annotationsOf = async (...argv: string[]) => {
    const lines = (await run(...argv, '--format', 'github')).out.trimEnd().split('\n');
    return { annotations: lines.slice(0, -1).map(read), last: lines.at(-1) };
  };

  it('have every finding at its place, counted from one', async () => {
    const { annotations, last } = await annotationsOf('.');
    const places = annotations
      .filter(({ title }: { title?: string }) => title !== 'not checked' && !title?.endsWith('accepted'))
      .map(({ file, line, col, title }: Record<string, string | undefined>) => `${file}:${line}:${col} ${title}`);
    expect(places).toEqual(await told());
    expect(last).toMatch(/^5 notes, 5 mixtures: /);
  });

  it('stay one command each, whatever the text and the name are', () => {
    const github = new GithubReporter();
    const report = reportOf(fenced('mixture bag\n  1 L sodum chloride 0.9%'));
    const [finding] = report.diagnostics;
    const message = '100%\r\n::set-output name=a::b, c: d %0A';
    const path = 'a:b,c\n::error::100%.md';
    const out = github.file({ path, policy: null, report: { ...report, diagnostics: [{ ...finding!, message }] } });
    expect(out.split('\n')).toHaveLength(2);
    const { file, text } = read(out.trimEnd()) as unknown as Record<string, string>;
    expect(file).toBe(path);
    expect(unescaped(text!)).toBe(message);
    expect(github.refused('a\nb%')).toBe('::error title=not checked::a%0Ab%25\n');
  });

  it('have accepted findings as notices with the reason', async () => {
    const { annotations } = await annotationsOf('kept.md');
    expect(annotations.at(-1)).toMatchObject({ command: 'notice', title: 'volume-added, accepted', line: '4' });
    expect(unescaped(annotations.at(-1)!.text!)).toContain(REASON);
  });
});

describe('text', () => {
  it('closes with the accepted findings and their reasons', async () => {
    const { out } = await run('.');
    const [accepted, last] = out.trimEnd().split('\n\n').slice(-2);
    expect(accepted).toBe(`Accepted, with the reasons that the notes give\n  kept.md:4:3  volume-added  ‘${REASON}’`);
    expect(last).toMatch(/^5 notes, 5 mixtures: .*; 1 accepted with its reason$/);
  });

  it('underlines the place in a long line, and in one with tabs', async () => {
    const line = `\t${' '.repeat(300)}1 L sodum chloride 0.9%`;
    const report = reportOf(fenced(`mixture bag\n${line}`));
    const text = new TextReporter({ colour: false, results: false });
    const [, shown = '', mark = ''] = text.file({ path: 'a.md', policy: null, report }).split('\n');
    expect(shown.slice(mark.indexOf('~'), mark.lastIndexOf('~') + 1)).toBe('sodum chloride');
    expect(shown.length).toBeLessThan(120);
  });

  // The conventions of no-color.org and force-color.org.
  it.each([
    [true, {}, true],
    [false, {}, false],
    [true, { NO_COLOR: '1' }, false],
    [true, { NO_COLOR: '' }, true],
    [true, { TERM: 'dumb' }, false],
    [false, { FORCE_COLOR: '1' }, true],
    [false, { FORCE_COLOR: '' }, false],
    [true, { FORCE_COLOR: '0' }, false],
    [false, { FORCE_COLOR: '1', NO_COLOR: '1' }, true],
  ])('on a terminal: %s, with %j, has colour: %s', (terminal, env, coloured) => {
    expect(isColoured(terminal, env)).toBe(coloured);
  });

  it('obeys nothing that stands in the name of a note', async () => {
    const report = reportOf(fenced('mixture bag\n  1 L sodum chloride 0.9%'));
    const text = new TextReporter({ colour: false, results: true });
    expect(text.file({ path: 'a\u001B[31m\n.md', policy: null, report })).not.toContain('\u001B');
  });
});

/** As VS Code documents problem matchers: patterns match lines that follow one another, groups name the parts. */
describe('the problem matcher', () => {
  it('finds every finding of the text format, with its message', async () => {
    const { pattern } = packageJson.contributes.problemMatchers[0]!;
    const lines = (await run('.')).out.split('\n');
    const found = lines.flatMap((_, start) => {
      const matches = pattern.map(({ regexp }, offset) => new RegExp(regexp).exec(lines[start + offset] ?? ''));
      if (matches.some((match) => match === null)) return [];
      const [{ file, line, column, severity, code }] = pattern as [Required<(typeof pattern)[0]>];
      const [first] = matches as [RegExpExecArray];
      expect(['error', 'warning', 'information', 'hint']).toContain(first[severity]);
      expect(matches.at(-1)![1]).toMatch(/^\S.*\.$/);
      return [`${first[file]}:${first[line]}:${first[column]} ${first[code]}`];
    });
    expect(found).toEqual(await told());
  });
});

describe('progress', () => {
  it('is told of long work on a terminal alone, and leaves nothing behind', () => {
    let now = 0;
    let written = '';
    const err = { isTTY: true, write: (text: string) => (written += text) };
    const progress = new Progress(err, 3, () => now);
    progress.step();
    expect(written).toBe('');
    now = 1500;
    progress.step();
    expect(written).toBe('\r\u001B[K2 of 3 notes');
    const { out } = progress.over({ out: err, err });
    out.write('a finding\n');
    expect(written.endsWith('notes\r\u001B[Ka finding\n')).toBe(true);
    progress.clear();
    expect(written.endsWith('a finding\n')).toBe(true);
    written = '';
    const silent = new Progress({ ...err, isTTY: false }, 3, () => now);
    now = 9000;
    silent.step();
    expect(written).toBe('');
  });
});
