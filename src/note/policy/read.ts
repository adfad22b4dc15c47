/** From the text of `infusion-policy.json` to the policy that it sets, and what is wrong with it. */
import {
  type Decimal,
  decimal,
  defaultLimits,
  type Limit,
  type Limits,
  limitIds,
  nearAmong,
  type Pharmacopoeia,
  type Reference,
  type Region,
  unit,
} from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import { DEFAULT_POLICY, type Policy, type PolicySeverity } from '../policy.ts';
import { refusalByShape } from '../use/refusal.ts';
import { Entries } from './entries.ts';
import type { LocatedPolicyFault } from './faults.ts';
import { type JsonMember, type JsonNode, readJson } from './json.ts';

export interface ReadPolicy {
  readonly policy: Policy;
  /** In the order of the file. */
  readonly faults: readonly LocatedPolicyFault[];
  /** Where the policy names the notes of its formulary. */
  readonly formulary: readonly FormularyEntry[];
}

export interface FormularyEntry {
  readonly path: string;
  readonly at: SourceSpan;
}

/** The severities that findings have by themselves, by their code. */
export type Severities = ReadonlyMap<string, Exclude<PolicySeverity, 'off'>>;

export const POLICY_KEYS = [
  '$schema',
  'region',
  'pharmacopoeia',
  'free-water-reference',
  'isotonic-from',
  'isotonic-below',
  'claim-tolerance',
  'terms',
  'severities',
  'prose',
  'formulary',
  'limits',
] as const;

export type PolicyKey = (typeof POLICY_KEYS)[number];

const REGIONS: readonly Region[] = ['UK', 'US'];
const PHARMACOPOEIAS: readonly Pharmacopoeia[] = ['USP', 'Ph. Eur.'];
const SUGARS = ['dextrose', 'glucose'] as const;
const AMOUNTS = ['mmol', 'mEq'] as const;
/** From the loudest to none. */
const SEVERITIES: readonly PolicySeverity[] = ['error', 'warning', 'information', 'hint', 'off'];
const LIMIT_KEYS = ['limit', 'source', 'date'] as const;

/** Percent. Beyond it a slip of the kind that claims are checked for would pass for rounding. */
const LARGEST_TOLERANCE = decimal(20);

/** Whose severity may be raised only, errors apart. */
const KEPT: ReadonlyMap<string, 'concentrate' | 'withholds'> = new Map([
  ['undiluted-concentrate', 'concentrate'],
  // It withholds results, and without it nothing would say why there are none.
  ['ambiguous-name', 'withholds'],
]);

/** The severities that a policy may give to a finding, the loudest first. */
export function severitiesAllowed(code: string, own: Exclude<PolicySeverity, 'off'>): readonly PolicySeverity[] {
  return own === 'error' || KEPT.has(code) ? SEVERITIES.slice(0, SEVERITIES.indexOf(own) + 1) : SEVERITIES;
}

/**
 * Total: any text gives a policy. An entry that is wrong is reported at its place and its default stands; of a text that
 * is no JSON nothing is used.
 */
export function readPolicy(text: string, severities: Severities): ReadPolicy {
  const json = readJson(text);
  if (json.ok) return new PolicyReader(severities).read(json.node);
  const { at, problem } = json;
  return { policy: DEFAULT_POLICY, faults: [{ at, fault: { code: 'policy-invalid', ...problem } }], formulary: [] };
}

class PolicyReader {
  private readonly entries = new Entries();
  private members: ReadonlyMap<string, JsonMember> = new Map();

  constructor(private readonly known: Severities) {}

  read(root: JsonNode): ReadPolicy {
    this.members = this.entries.fixedMembers(root, null, POLICY_KEYS, '{ "region": "UK" }');
    this.entry('$schema', (node) => this.entries.text(node, '$schema', '"…"'));
    const region = this.entry('region', (node) => this.entries.word(node, 'region', REGIONS));
    const pharmacopoeia = this.entry('pharmacopoeia', (node) =>
      this.entries.word(node, 'pharmacopoeia', PHARMACOPOEIAS),
    );
    const tolerance = this.entry('claim-tolerance', (node) =>
      this.entries.quantity(node, 'claim-tolerance', unit('%'), '"5 %"', LARGEST_TOLERANCE),
    );
    const formulary = this.formulary();
    const policy: Policy = {
      reference: this.reference(),
      pharmacopoeia: pharmacopoeia ?? DEFAULT_POLICY.pharmacopoeia,
      claimTolerance: tolerance ?? DEFAULT_POLICY.claimTolerance,
      limits: this.limits(defaultLimits(region)),
      severities: this.severities(),
      terms: this.terms(),
      prose: this.entry('prose', (node) => this.entries.truth(node, 'prose')) ?? DEFAULT_POLICY.prose,
      formulary: formulary.map(({ path }) => path),
    };
    return { policy, faults: this.entries.faults.sort((a, b) => a.at.start - b.at.start), formulary };
  }

  private entry<T>(key: PolicyKey, read: (node: JsonNode) => T | null): T | null {
    const member = this.members.get(key);
    return member ? read(member.value) : null;
  }

  /** Paths that no note can have are left out. */
  private formulary(): readonly FormularyEntry[] {
    const read = this.entry('formulary', (node) => this.entries.paths(node, 'formulary', '["./formulary.md"]')) ?? [];
    return read.filter(({ path, at }) => {
      const why = refusalByShape(path);
      if (why) this.entries.report(at, { problem: 'formulary-note', path: path.slice(0, 60), why });
      return !why;
    });
  }

  private reference(): Reference {
    const { reference } = DEFAULT_POLICY;
    const osmolarity = (key: 'isotonic-from' | 'isotonic-below', example: string) =>
      this.entry(key, (node) => this.entries.quantity(node, key, unit('mOsm/L'), example));
    const freeWater = this.entry('free-water-reference', (node) =>
      this.entries.quantity(node, 'free-water-reference', unit('mmol/L'), '"154 mmol/L"'),
    );
    const isotonicFrom = osmolarity('isotonic-from', '"250 mOsm/L"') ?? reference.isotonicFrom;
    const isotonicBelow = osmolarity('isotonic-below', '"375 mOsm/L"') ?? reference.isotonicBelow;
    const read = { ...reference, freeWater: freeWater ?? reference.freeWater };
    if (isotonicFrom.lt(isotonicBelow)) return { ...read, isotonicFrom, isotonicBelow };
    const blamed = this.members.get('isotonic-below') ?? this.members.get('isotonic-from');
    if (blamed) {
      this.entries.report(blamed.value.at, { problem: 'upside-down', from: isotonicFrom, below: isotonicBelow });
    }
    return read;
  }

  private terms(): Policy['terms'] {
    const member = this.members.get('terms');
    if (!member) return DEFAULT_POLICY.terms;
    const terms = this.entries.fixedMembers(member.value, 'terms', ['sugar', 'amounts'], '{ "sugar": "glucose" }');
    const word = <W extends string>(key: string, words: readonly W[]) => {
      const entry = terms.get(key);
      return entry ? this.entries.word(entry.value, key, words) : null;
    };
    return {
      sugar: word('sugar', SUGARS) ?? DEFAULT_POLICY.terms.sugar,
      amounts: word('amounts', AMOUNTS) ?? DEFAULT_POLICY.terms.amounts,
    };
  }

  private severities(): Policy['severities'] {
    const set = new Map<string, PolicySeverity>();
    const member = this.members.get('severities');
    if (!member) return set;
    const example = '{ "volume-added": "information" }';
    for (const { key, keyAt, value } of this.entries.members(member.value, 'severities', example).values()) {
      const own = this.known.get(key);
      if (!own) {
        const near = nearAmong(key, [...this.known.keys()]);
        this.entries.report(keyAt, { problem: 'unknown-code', found: key.slice(0, 60), near });
        continue;
      }
      const to = this.entries.word(value, key, SEVERITIES);
      if (!to) continue;
      if (severitiesAllowed(key, own).includes(to)) set.set(key, to);
      else {
        const because = own === 'error' ? 'error' : KEPT.get(key)!;
        this.entries.report(value.at, { problem: 'lowered', of: key, to, from: own, because });
      }
    }
    return set;
  }

  private limits(defaults: Limits): Limits {
    const member = this.members.get('limits');
    if (!member) return defaults;
    const limits = new Map(defaults);
    const example = '{ "peripheral-osmolarity": { "limit": "800 mOsm/L", "source": "Formulary of the hospital" } }';
    for (const { key, keyAt, value } of this.entries.members(member.value, 'limits', example).values()) {
      const usual = defaults.get(key);
      if (!usual) {
        this.entries.report(keyAt, {
          problem: 'unknown-limit',
          found: key.slice(0, 60),
          near: nearAmong(key, limitIds()),
        });
        continue;
      }
      const limit = this.limit(usual, keyAt, value);
      if (limit) limits.set(key, limit);
    }
    return limits;
  }

  /** All of it, or the default: a limit without its source is nobody's. */
  private limit(usual: Limit, keyAt: JsonMember['keyAt'], node: JsonNode): Limit | null {
    const { id, unit: of, value } = usual;
    const example = `{ "limit": "${value} ${of.symbol}", "source": "Formulary of the hospital" }`;
    const members = this.entries.fixedMembers(node, id, LIMIT_KEYS, example);
    const entry = <T>(key: (typeof LIMIT_KEYS)[number], read: (of: JsonNode) => T | null): T | null | undefined => {
      const member = members.get(key);
      return member && read(member.value);
    };
    const limit = entry('limit', (written) => this.entries.quantity(written, id, of, `"${value} ${of.symbol}"`));
    const source = entry('source', (written) => this.entries.text(written, id, '"Formulary of the hospital"'));
    const date = entry('date', (written) => this.entries.date(written, id));
    if (node.kind === 'object') {
      if (limit === undefined) this.entries.report(keyAt, { problem: 'missing', of: id, what: 'limit' });
      if (source === undefined) this.entries.report(keyAt, { problem: 'missing', of: id, what: 'source' });
    }
    if (!limit || !source || date === null) return null;
    return localLimit(usual, limit, source, date ?? null);
  }
}

function localLimit(usual: Limit, value: Decimal, source: string, date: string | null): Limit {
  return { ...usual, value, source, date, disagree: null, local: true };
}
