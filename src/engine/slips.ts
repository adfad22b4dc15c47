/** Which usual slip explains a claim that fails. */
import type { Contents } from './contents.ts';
import { type Decimal, decimal, ONE } from './decimal.ts';
import { formatDecimal } from './format.ts';
import type { Observable } from './observables.ts';
import { equivalentsPerMole, type Substance, substances } from './substances.ts';
import { isRate, type Unit } from './units.ts';

/** A usual slip. `words` go into a sentence: the claim is off by … */
export interface Slip {
  /** `ten`, `thousand`, `charge`, `hydrate`, `salt-for-element`, `conventional-units`, `per-bag`, `minutes`, `days`, `additives`. */
  readonly factor: string;
  /** `a factor of 1000, as between mg and g`. */
  readonly words: string;
}

/** What is known about the claim; each part lets more slips be recognised. */
export interface SlipContext {
  readonly contents?: Contents;
  readonly observable?: Observable;
  /** Unit of the claim. Slips of time count only for rates, or where no unit is given. */
  readonly unit?: Unit;
  /** Half a unit of the last place claimed, in that unit: how far rounding may carry the claim. */
  readonly halfUnit?: Decimal;
  /** mL before the additives came in. */
  readonly volumeBeforeAdditives?: Decimal;
}

interface Candidate extends Slip {
  /** Claimed ÷ found when this slip was made. */
  readonly ratio: Decimal;
}

const ONE_PERCENT = decimal('0.01');
const LITRE = decimal(1000);

/**
 * The usual slip by which a claim differs from what was found, or null. The factor must fit within 1 %, or within half a
 * unit of the last place claimed.
 */
export function slip(claimed: Decimal, found: Decimal, context: SlipContext = {}): Slip | null {
  if (found.isZero() || claimed.isZero()) return null;
  for (const { factor, words, ratio } of candidates(context)) {
    if (ratio.minus(ONE).abs().lte(ONE_PERCENT)) continue;
    const expected = found.times(ratio);
    const off = claimed.minus(expected).abs();
    if (off.lte(expected.abs().times(ONE_PERCENT)) || (context.halfUnit && off.lte(context.halfUnit))) {
      return { factor, words };
    }
  }
  return null;
}

function candidates(context: SlipContext): readonly Candidate[] {
  const { unit } = context;
  const timed = !unit || isRate(unit);
  return [
    ...bothWays('thousand', decimal(1000), 'a factor of 1000, as between mg and g'),
    ...bothWays('ten', decimal(10), 'a factor of 10, as when the decimal point moves by one place'),
    ...charge(context),
    ...hydrates(context),
    ...saltForElement(context),
    ...conventionalUnits(context),
    ...additives(context),
    ...perBag(context),
    ...(timed ? bothWays('minutes', decimal(60), 'a factor of 60, as between minutes and hours') : []),
    ...(timed ? bothWays('days', decimal(24), 'a factor of 24, as between hours and days') : []),
  ];
}

function bothWays(factor: string, ratio: Decimal, words: string): readonly Candidate[] {
  return [
    { factor, words, ratio },
    { factor, words, ratio: ONE.div(ratio) },
  ];
}

function charge({ observable }: SlipContext): readonly Candidate[] {
  const { ion, substance } = observable ?? {};
  const number = ion ? Math.abs(ion.charge ?? 0) : substance ? equivalentsPerMole(substance) : 0;
  if (number < 2) return [];
  const of = ion?.name ?? substance!.family;
  return bothWays('charge', decimal(number), `a factor of ${number}, as between mmol and mEq of ${of}`);
}

/** One crystal form weighed for another: the ratio of their molar masses. */
function hydrates({ contents, observable }: SlipContext): readonly Candidate[] {
  const pairs = formsConcerned(contents, observable).flatMap((forms) =>
    forms.flatMap((heavy) =>
      forms.flatMap((light) => {
        const ratio = light.molarMass && heavy.molarMass?.div(light.molarMass);
        return ratio?.gt(ONE) ? [{ heavy, light, ratio }] : [];
      }),
    ),
  );
  return pairs.flatMap(({ heavy, light, ratio }) => {
    const words = `a factor of ${formatDecimal(ratio)}, as between ${light.name} and ${heavy.name}`;
    return bothWays('hydrate', ratio, words);
  });
}

/** The mass of a salt for that of its element, or the other way round. */
function saltForElement({ contents, observable, unit }: SlipContext): readonly Candidate[] {
  if (unit?.dimension.over !== 'mass') return [];
  const { ion, substance } = observable ?? {};
  const salts = substance ? [substance] : [...(contents?.solutes.keys() ?? [])];
  return salts.flatMap(({ name, molarMass, gives }) =>
    gives.flatMap(({ particle, count }) => {
      const concerned = ion ? ion.forms.includes(particle) : particle.charge > 0;
      if (!molarMass || !particle.molarMass || !concerned) return [];
      const ratio = molarMass.div(particle.molarMass.times(count));
      const words = `a factor of ${formatDecimal(ratio)}, as between ${name} and its ${particle.name}`;
      return bothWays('salt-for-element', ratio, words);
    }),
  );
}

/** mmol/L read as mg/dL, or the other way round. */
function conventionalUnits({ observable, unit }: SlipContext): readonly Candidate[] {
  const mass = observable?.ion?.molarMass ?? observable?.substance?.molarMass;
  if (!mass || unit?.dimension.under.join() !== 'volume') return [];
  const ratio = mass.div(10);
  return bothWays('conventional-units', ratio, `a factor of ${formatDecimal(ratio)}, as between mg/dL and mmol/L`);
}

/** The families whose form matters to what is asked: those that give the particle, the solute itself, or a sole solute. */
function formsConcerned(contents?: Contents, observable?: Observable): readonly (readonly Substance[])[] {
  const held = [...(contents?.solutes.keys() ?? [])];
  const { ion, substance } = observable ?? {};
  const concerned = substance
    ? [substance]
    : ion
      ? held.filter(({ gives }) => gives.some(({ particle }) => ion.forms.includes(particle)))
      : held.filter(({ family }) => held.every((other) => other.family === family));
  const families = new Set(concerned.map(({ family }) => family));
  return [...families].map((family) => substances().filter((form) => form.family === family));
}

/** The whole container's total written as if it were per litre, or the other way round. */
function perBag({ contents, unit }: SlipContext): readonly Candidate[] {
  if (!contents || !unit || contents.volume.lte(0)) return [];
  const litres = contents.volume.div(LITRE);
  const ratio = unit.dimension.under.includes('volume') ? litres : ONE.div(litres);
  const volume = `${formatDecimal(contents.volume)} mL`;
  return [
    {
      factor: 'per-bag',
      ratio,
      words: `the ratio between 1 L and the ${volume} made, as between per litre and in all`,
    },
  ];
}

/** The volume that additives brought, left out of account. */
function additives({ contents, volumeBeforeAdditives: before }: SlipContext): readonly Candidate[] {
  if (!contents || !before || before.lte(0)) return [];
  const added = formatDecimal(contents.volume.minus(before));
  const words = `the volume of the additives, ${added} mL, left out of account`;
  return [{ factor: 'additives', ratio: contents.volume.div(before), words }];
}
