/** What is generated about local policy: its JSON schema, which editors read, and the table of its limits. */

import { CHECKS } from '../src/checks/index.ts';
import { DEFAULT_REFERENCE, defaultLimits, formatDecimal, formatQuantity, type Limit } from '../src/engine/index.ts';
import { DEFAULT_POLICY, type PolicyKey, severitiesAllowed } from '../src/note/index.ts';

/** A number behind which a unit stands; which unit it is, the reader says. */
const QUANTITY = '[0-9½¼¾⅓⅔⅛].*[^0-9\\s]';

const LIMITS = [...defaultLimits(null).values()];

export function policySchema(): string {
  const properties: Record<PolicyKey, object> = {
    $schema: { type: 'string', description: 'The address of this schema.' },
    region: {
      enum: ['UK', 'US'],
      description: 'Whose practice the limits follow that are not set below, where countries differ.',
    },
    pharmacopoeia: {
      enum: ['USP', 'Ph. Eur.'],
      default: DEFAULT_POLICY.pharmacopoeia,
      description:
        'Whose names a solute follows whose crystal form is not written: under USP dextrose is the monohydrate, under Ph. Eur. it is anhydrous.',
    },
    'free-water-reference': quantity(
      formatQuantity(DEFAULT_REFERENCE.freeWater, 'mmol/L'),
      'Sodium and potassium in water that is all bound to electrolytes: free water is what lies below it.',
    ),
    'isotonic-from': quantity(
      formatQuantity(DEFAULT_REFERENCE.isotonicFrom, 'mOsm/L'),
      'The osmolarity from which a fluid is called isotonic.',
    ),
    'isotonic-below': quantity(
      formatQuantity(DEFAULT_REFERENCE.isotonicBelow, 'mOsm/L'),
      'The osmolarity from which a fluid is called hypertonic.',
    ),
    'claim-tolerance': quantity(
      formatQuantity(DEFAULT_POLICY.claimTolerance, '%'),
      'How far a claim without a tolerance of its own may be off to be taken for a rounded label. At most 20 %.',
    ),
    terms: object('Words that cards and tables prefer.', {
      sugar: { enum: ['dextrose', 'glucose'], description: 'What the sugar is called in cards and tables.' },
      amounts: {
        enum: ['mmol', 'mEq'],
        default: DEFAULT_POLICY.terms.amounts,
        description: 'In what cards and tables count ions whose charge is fixed.',
      },
    }),
    severities: object(
      'How findings are taken, by their code. Errors stay errors; warnings, information and hints can be raised, lowered or switched off.',
      Object.fromEntries(
        CHECKS.map(({ code, severity, title }) => [
          code,
          { enum: severitiesAllowed(code, severity), default: severity, description: title },
        ]),
      ),
    ),
    prose: {
      type: 'boolean',
      default: DEFAULT_POLICY.prose,
      description: 'Whether the wording of orders is looked at in the prose of a note as well.',
    },
    formulary: {
      type: 'array',
      items: { type: 'string', pattern: '\\S', maxLength: 200 },
      default: DEFAULT_POLICY.formulary,
      description: 'Notes whose fluids every note may use, as paths from the folder of this file.',
    },
    limits: object(
      'Limits that orders are held against, each with its source.',
      Object.fromEntries(LIMITS.map((limit) => [limit.id, limitSchema(limit)])),
    ),
  };
  const schema = {
    $schema: 'http://json-schema.org/draft-07/schema#',
    $id: 'infusion-policy.schema.json',
    title: 'Local policy for fluids in notes',
    ...object('What a hospital decides for its notes. What is left out keeps its default.', properties),
  };
  return `${JSON.stringify(schema, null, 2)}\n`;
}

function object(description: string, properties: object, required: readonly string[] = []): object {
  return {
    description,
    type: 'object',
    additionalProperties: false,
    ...(required.length > 0 && { required }),
    properties,
  };
}

function quantity(usual: string, description: string): object {
  return { type: 'string', pattern: QUANTITY, default: usual, examples: [usual], description };
}

function limitSchema(limit: Limit): object {
  const usual = formatQuantity(limit.value, limit.unit.symbol);
  const told = `The limit of ${limit.title}: ${usual} unless it is set. Source: ${limit.source}.${limit.disagree ? ` ${limit.disagree}` : ''}`;
  return object(
    told,
    {
      limit: quantity(usual, told),
      source: { type: 'string', pattern: '\\S', maxLength: 200, description: 'Where the limit stands.' },
      date: { type: 'string', format: 'date', description: 'The day of its source: year, month, day.' },
    },
    ['limit', 'source'],
  );
}

/** Every limit with its default, and that of a region where it differs. */
export function limitsTable(): string {
  const rows = LIMITS.map(({ id, title, value, unit, source, disagree }) => {
    const usual = formatQuantity(value, unit.symbol);
    const regional = (['UK', 'US'] as const).flatMap((region) => {
      const limit = defaultLimits(region).get(id)!;
      const same = limit.value.eq(value) && limit.source === source;
      return same ? [] : [`; ${region}: ${formatDecimal(limit.value)} ${limit.unit.symbol} (${limit.source})`];
    });
    return `| \`${id}\` | ${title} | ${usual} | ${source}${regional.join('')} | ${disagree ?? ''} |`;
  });
  return [
    '| limit | of what | default | source | where sources disagree |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}
