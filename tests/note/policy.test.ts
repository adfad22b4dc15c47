/** The reader of local policy, against its JSON schema and against itself. No source: our own design. */
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SEVERITIES } from '../../src/checks/index.ts';
import { defaultLimits, limitIds } from '../../src/engine/index.ts';
import { readNote } from '../../src/markdown/index.ts';
import { parseBlock } from '../../src/notation/index.ts';
import { DEFAULT_POLICY, POLICY_KEYS, readPolicy, workNote } from '../../src/note/index.ts';
import { diagnosticsOf } from '../../src/service/diagnostics.ts';
import { fenced } from '../annotated.ts';
import { runs } from '../runs.ts';

const schema = JSON.parse(
  readFileSync(new URL('../../shared/schema/infusion-policy.schema.json', import.meta.url), 'utf8'),
);
const ajv = new Ajv({ strict: true, formats: { date: true } });
const keepsToSchema = ajv.compile(schema);

const LIMIT = 'peripheral-osmolarity';

const read = (policy: unknown) => readPolicy(typeof policy === 'string' ? policy : JSON.stringify(policy), SEVERITIES);
const problems = (policy: unknown) => read(policy).faults.map(({ fault }) => fault.problem);
const limitWith = (entry: unknown) => ({ limits: { [LIMIT]: entry } });

/** Files in which nothing is wrong. */
const good: readonly object[] = [
  {},
  { $schema: './infusion-policy.schema.json', region: 'US', pharmacopoeia: 'USP' },
  { 'free-water-reference': '150 mmol/L', 'isotonic-from': '0.26 Osm/L', 'isotonic-below': '350 mOsm/L' },
  { 'claim-tolerance': '2.5%', terms: { sugar: 'glucose', amounts: 'mEq' }, prose: true, formulary: ['./a.md'] },
  {
    severities: {
      'volume-added': 'error',
      'nominal-claim': 'off',
      'claim-mismatch': 'error',
      'ambiguous-name': 'error',
    },
  },
  limitWith({ limit: '600 mOsm/L', source: 'Formulary', date: '2024-02-29' }),
];

/** What is wrong in files of one entry. */
const bad: readonly (readonly [unknown, string])[] = [
  [[], 'wrong-type'],
  [7, 'wrong-type'],
  [{ limit: {} }, 'unknown-key'],
  [{ region: 'uk' }, 'unknown-word'],
  [{ region: null }, 'wrong-type'],
  [{ 'claim-tolerance': 5 }, 'wrong-type'],
  [{ 'claim-tolerance': '5' }, 'no-unit'],
  [{ 'isotonic-from': '' }, 'no-quantity'],
  [{ terms: { salt: 'sodium' } }, 'unknown-key'],
  [{ terms: { sugar: 'sucrose' } }, 'unknown-word'],
  [{ terms: 'glucose' }, 'wrong-type'],
  [{ severities: { nothing: 'off' } }, 'unknown-code'],
  [{ severities: { 'claim-mismatch': 'warning' } }, 'lowered'],
  [{ severities: { 'ambiguous-name': 'off' } }, 'lowered'],
  [{ severities: { 'policy-invalid': 'off' } }, 'lowered'],
  [{ severities: { 'volume-added': 'loud' } }, 'unknown-word'],
  [{ prose: 'true' }, 'wrong-type'],
  [{ formulary: './a.md' }, 'wrong-type'],
  [{ formulary: [' '] }, 'empty'],
  [{ limits: { unheard: { limit: '1 mL', source: 'Formulary' } } }, 'unknown-limit'],
  [limitWith({ limit: '600 mOsm/L' }), 'missing'],
  [limitWith({ source: 'Formulary' }), 'missing'],
  [limitWith('600 mOsm/L'), 'wrong-type'],
  [limitWith({ limit: '600 mOsm/L', source: ' ' }), 'empty'],
  [limitWith({ limit: '600 mOsm/L', source: 'x'.repeat(201) }), 'too-long'],
  [limitWith({ limit: '600 mOsm/L', source: 'Formulary', by: 'me' }), 'unknown-key'],
];

/** What a schema cannot say. */
const badBeyondSchema: readonly (readonly [string | object, string])[] = [
  ['{ "region": "UK", "region": "UK" }', 'duplicate-key'],
  [{ 'isotonic-from': '250 mmol/L' }, 'wrong-dimension'],
  [{ 'claim-tolerance': '50 g/L' }, 'wrong-dimension'],
  [{ 'claim-tolerance': '21 %' }, 'above-most'],
  [{ 'claim-tolerance': '0 %' }, 'not-above-zero'],
  [{ 'isotonic-from': '-1 mOsm/L' }, 'not-above-zero'],
  [{ 'isotonic-from': '250 mOsm/L ± 5 %' }, 'no-quantity'],
  [{ 'isotonic-from': '375 mOsm/L' }, 'upside-down'],
  [{ 'isotonic-from': '1,000 mOsm/L' }, 'number-form'],
  [{ 'isotonic-from': '250 mosmols' }, 'unknown-unit'],
  [limitWith({ limit: '600 mOsm/L', source: 'Formulary', date: '2026-02-29' }), 'no-date'],
  [limitWith({ limit: '600 mOsm/L', source: 'Formulary', date: '1 March 2026' }), 'no-date'],
];

const notJson = [
  '',
  ' ',
  '{',
  '{"prose": true,}',
  '// no\n{}',
  '{} {}',
  '{\n "prose": true\n "region": "UK"\n}',
  "{'a': 1}",
];

describe('a policy', () => {
  it('that is empty is the default', () => {
    expect(read({})).toEqual({ policy: DEFAULT_POLICY, faults: [], formulary: [] });
  });

  it.each(good.map((policy) => [JSON.stringify(policy), policy] as const))('is read: %s', (_, policy) => {
    expect(read(policy).faults).toEqual([]);
    expect(keepsToSchema(policy), JSON.stringify(keepsToSchema.errors)).toBe(true);
  });

  it('sets what it says', () => {
    const [, first, second, third, fourth, fifth] = good.map((policy) => read(policy).policy);
    expect(first!.limits).toEqual(defaultLimits('US'));
    expect(Object.values(second!.reference).map(String)).toEqual(['150', '260', '350']);
    expect(third).toMatchObject({ terms: { sugar: 'glucose', amounts: 'mEq' }, prose: true, formulary: ['./a.md'] });
    expect(third!.claimTolerance.toString()).toBe('2.5');
    expect([...fourth!.severities]).toEqual(Object.entries((good[4] as { severities: object }).severities));
    expect(fifth!.limits.get(LIMIT)).toMatchObject({ source: 'Formulary', date: '2024-02-29', local: true });
    expect(fifth!.limits.get(LIMIT)!.value.toString()).toBe('600');
  });

  it('tells a limit in the unit of its default', () => {
    const { policy } = read(limitWith({ limit: '0.6 Osm/L', source: 'Formulary' }));
    const { value, unit } = policy.limits.get(LIMIT)!;
    expect([value.toString(), unit.symbol]).toEqual(['600', 'mOsm/L']);
  });

  it('may begin with a byte order mark', () => {
    expect(read('\ufeff{ "prose": true }')).toMatchObject({ policy: { prose: true }, faults: [] });
  });
});

describe('what is wrong', () => {
  it.each(bad.map(([policy, problem]) => [JSON.stringify(policy), problem, policy] as const))(
    'is found: %s, %s',
    (_, problem, policy) => {
      expect(problems(policy)).toEqual([problem]);
      expect(keepsToSchema(policy)).toBe(false);
    },
  );

  it.each(badBeyondSchema.map(([policy, problem]) => [JSON.stringify(policy), problem, policy] as const))(
    'is found where a schema sees nothing: %s, %s',
    (_, problem, policy) => {
      expect(problems(policy)).toEqual([problem]);
    },
  );

  it.each(notJson)('is found where nothing can be read: %j', (text) => {
    const { policy, faults } = read(text);
    expect(policy).toBe(DEFAULT_POLICY);
    expect(faults.map(({ fault }) => fault.problem)).toEqual(['not-json']);
  });

  it('names the line where JSON ends', () => {
    expect(read('{\n "prose": true\n "region": "UK"\n}').faults[0]!.fault).toMatchObject({ line: 3 });
  });

  it('leaves the default in its place, and the rest in use', () => {
    const { policy } = read({ 'isotonic-from': '1 mmol/L', 'isotonic-below': '350 mOsm/L', region: 'XX', prose: true });
    expect(Object.values(policy.reference).map(String)).toEqual(['154', '250', '350']);
    expect(policy.prose).toBe(true);
  });

  it('is told in the order of the file, with a proposal', () => {
    const { faults } = read('{ "sevrities": {}, "prose": 1, "pharmacopoeia": "Ph. Eur" }');
    expect(faults.map(({ fault }) => fault)).toMatchObject([{ near: ['severities'] }, {}, { near: ['Ph. Eur.'] }]);
  });

  it('is bounded in length, depth and number', () => {
    expect(problems(`{}${' '.repeat(1024 * 1024)}`)).toEqual(['too-large']);
    expect(problems('['.repeat(1_000_000))).toEqual(['too-deep']);
    expect(problems('{"a":'.repeat(200_000))).toEqual(['too-deep']);
    const many = Object.fromEntries(Array.from({ length: 30_000 }, (_, index) => [`key-${index}`, 1]));
    expect(problems(many)).toHaveLength(100);
    expect(problems({ limits: JSON.parse('{"__proto__": {}, "constructor": {}}') })).toEqual([
      'unknown-limit',
      'unknown-limit',
    ]);
  });
});

describe('any text', () => {
  const holds = (text: string) => {
    const { policy, faults } = readPolicy(text, SEVERITIES);
    for (const { at } of faults) {
      expect(at.start).toBeGreaterThanOrEqual(0);
      expect(at.end).toBeLessThanOrEqual(text.length);
      expect(at.end).toBeGreaterThanOrEqual(Math.min(at.start + 1, text.length));
    }
    expect([...policy.limits.keys()]).toEqual(limitIds());
    expect(policy.reference.isotonicFrom.lt(policy.reference.isotonicBelow)).toBe(true);
    return { policy, faults };
  };

  it('gives a policy', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => void holds(text)));
  });

  it('gives a policy, and no fault in JSON means none by the schema', () => {
    const word = fc.constantFrom(
      'UK',
      'USP',
      '154 mmol/L',
      '250 mOsm/L',
      '5 %',
      '½ mmol/L',
      'off',
      'error',
      'glucose',
      '',
    );
    const leaf = fc.oneof(word, fc.boolean(), fc.string(), fc.double(), fc.constant(null));
    const inner = fc.dictionary(
      fc.oneof(fc.constantFrom('sugar', 'limit', 'source', 'date', LIMIT, 'volume-added', 'syntax'), fc.string()),
      fc.oneof(leaf, fc.dictionary(fc.constantFrom('limit', 'source', 'date'), leaf)),
      { maxKeys: 3 },
    );
    const policy = fc.dictionary(
      fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...POLICY_KEYS) }, { weight: 1, arbitrary: fc.string() }),
      fc.oneof(leaf, inner, fc.array(leaf)),
      { maxKeys: 4 },
    );
    fc.assert(
      fc.property(fc.oneof({ weight: 9, arbitrary: policy }, { weight: 1, arbitrary: fc.jsonValue() }), (value) => {
        const { faults } = holds(JSON.stringify(value));
        if (faults.length === 0) expect(keepsToSchema(JSON.parse(JSON.stringify(value)))).toBe(true);
      }),
      runs(2000),
    );
  });
});

describe('a note under a policy', () => {
  const worked = (block: string, policy: object) =>
    workNote(readNote(fenced(block)), parseBlock, readPolicy(JSON.stringify(policy), SEVERITIES).policy);
  const found = (block: string, policy: object) =>
    diagnosticsOf(worked(block, policy)).map(({ code, severity }) => `${severity} ${code}`);
  const rounded = 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 150 mmol/L';

  it('holds claims to its tolerance', () => {
    expect(found(rounded, {})).toEqual(['information nominal-claim']);
    expect(found(rounded, { 'claim-tolerance': '1 %' })).toEqual(['error claim-mismatch']);
  });

  it('has the severities that it sets, and nothing of what it switches off', () => {
    expect(found(rounded, { severities: { 'nominal-claim': 'warning' } })).toEqual(['warning nominal-claim']);
    expect(found(rounded, { severities: { 'nominal-claim': 'off' } })).toEqual([]);
    expect(found('mixture bag\n  1 L sodum chloride 0.9%', { severities: { 'unknown-name': 'off' } })).toEqual([
      'error unknown-name',
    ]);
  });

  it('calls fluids isotonic by its range', () => {
    const claim = 'mixture bag\n  1 L sodium chloride 0.9%\n  claim tonicity in the bag hypotonic';
    expect(found(claim, {})).toEqual(['error claim-mismatch']);
    expect(found(claim, { 'isotonic-from': '320 mOsm/L' })).toEqual([]);
  });

  it('measures free water by its reference', () => {
    const claim = (value: string) => `mixture bag\n  1 L sodium chloride 0.45%\n  claim free water ${value}`;
    // 77.0 mmol/L: 1 - 77/154 = 0.5, and 1 - 77/140 = 0.45
    expect(found(claim('50 %'), {})).toEqual([]);
    expect(found(claim('45 %'), { 'free-water-reference': '140 mmol/L' })).toEqual([]);
  });

  it('names solutes by its pharmacopoeia', () => {
    // 50 g of the monohydrate (198.17 g/mol) are 252 mmol, of the anhydrous form (180.16 g/mol) 278 mmol
    const claim = (value: string) => `mixture bag\n  1 L dextrose 5%\n  claim osmolarity ${value}`;
    expect(found(claim('252 mOsm/L'), {})).toEqual(found(claim('278 mOsm/L'), { pharmacopoeia: 'Ph. Eur.' }));
    expect(found(claim('252 mOsm/L'), { pharmacopoeia: 'Ph. Eur.' })).toContain('error claim-mismatch');
  });
});
