/**
 * Total body water: what the author writes, or an estimate by a published formula. Powers that are no whole numbers are
 * rounded to forty digits like divisions; the formulas themselves are off by litres.
 */
import { atMost, type Decimal, decimal } from '../decimal.ts';
import { BODIES, type Datum, sourceTitle } from '../reference.ts';
import { ageGroup } from './ages.ts';
import type { PatientFacts, Sex } from './facts.ts';

export type BodyWater =
  | {
      readonly ok: true;
      readonly litres: Decimal;
      readonly by: 'written' | 'watson' | 'fraction' | 'morgenstern' | 'neonate';
      /** L/kg, where the estimate is a share of the weight. */
      readonly fraction: Decimal | null;
      /** L, one standard deviation, where one is published. */
      readonly within: Decimal | null;
      /** Its title, for showing. */
      readonly source: string;
    }
  | {
      readonly ok: false;
      /** What the least of estimates still needs. Height is never among it: without it a share of the weight is taken. */
      readonly missing: readonly ('weight' | 'age' | 'sex' | 'height')[];
    };

type Estimate = Extract<BodyWater, { ok: true }>;

const { waterByHeight: BY_HEIGHT, waterByWeight: BY_WEIGHT, waterOfChildren: OF_CHILDREN } = BODIES;
const OLDER_FROM = decimal(BY_WEIGHT.older.value);

/** Nothing is guessed: weight and age are needed, and of an adult the sex. A weight or height of nothing is not known. */
export function bodyWater(facts: PatientFacts): BodyWater {
  if (facts.bodyWater?.gt(0)) return estimate('written', facts.bodyWater, 'written in the note');
  const group = ageGroup(facts.age);
  const weight = aboveZero(facts.weight);
  const height = aboveZero(facts.height);
  const { age, sex } = facts;
  if (!weight || !age || !group || (group === 'adult' && !sex)) {
    return {
      ok: false,
      missing: [
        ...(weight ? [] : (['weight'] as const)),
        ...(group ? [] : (['age'] as const)),
        ...(group === 'adult' && !sex ? (['sex'] as const) : []),
      ],
    };
  }
  if (group === 'adult' && sex) {
    const older = atMost(OLDER_FROM, age);
    return watson(weight, height, age, sex) ?? share('fraction', weight, shareOfAdult(sex, older));
  }
  const published = morgenstern(weight, height, age, sex);
  if (published) return published;
  return group === 'neonate' ? share('neonate', weight, BY_WEIGHT.neonate) : share('fraction', weight, BY_WEIGHT.child);
}

function watson(weight: Decimal, height: Decimal | null, age: Decimal, sex: Sex): Estimate | null {
  if (!height) return null;
  const { constant, perYear, perCentimetre, perKilogram, deviation } = BY_HEIGHT[sex];
  const litres = decimal(constant)
    .plus(age.times(perYear))
    .plus(height.times(perCentimetre))
    .plus(weight.times(perKilogram));
  if (!fits(litres, weight)) return null;
  return estimate('watson', litres, sourceTitle(BY_HEIGHT.source), { within: decimal(deviation) });
}

/** By age from birth on, since the paper's youngest group begins there; it needs the weight alone. */
function morgenstern(weight: Decimal, height: Decimal | null, age: Decimal, sex: Sex | null): Estimate | null {
  const litres = litresOfChild(weight, height, age, sex);
  return litres && fits(litres, weight) ? estimate('morgenstern', litres, sourceTitle(OF_CHILDREN.source)) : null;
}

function litresOfChild(weight: Decimal, height: Decimal | null, age: Decimal, sex: Sex | null): Decimal | null {
  const { first, middle, last } = OF_CHILDREN;
  if (!atMost(decimal(first.before), age)) return weight.pow(first.power).times(first.factor);
  if (!height || !sex) return null;
  const band = atMost(age, decimal(middle.until)) ? middle : last;
  const litres = height.times(weight).pow(band.power).times(band.factor);
  return sex === 'female' ? litres.times(band.girls) : litres;
}

function shareOfAdult(sex: Sex, older: boolean): Datum {
  if (sex === 'male') return older ? BY_WEIGHT.olderMale : BY_WEIGHT.male;
  return older ? BY_WEIGHT.olderFemale : BY_WEIGHT.female;
}

function share(by: 'fraction' | 'neonate', weight: Decimal, { value, source }: Datum): Estimate {
  const fraction = decimal(value);
  return estimate(by, weight.times(fraction), sourceTitle(source), { fraction });
}

function estimate(
  by: Estimate['by'],
  litres: Decimal,
  source: string,
  { fraction = null, within = null }: Partial<Pick<Estimate, 'fraction' | 'within'>> = {},
): Estimate {
  return { ok: true, litres, by, fraction, within, source };
}

/** Beyond the sizes it was made from a formula can give no water, or more of it than the body weighs; it is then left. */
function fits(litres: Decimal, weight: Decimal): boolean {
  return litres.gt(0) && litres.lt(weight);
}

function aboveZero(value: Decimal | null): Decimal | null {
  return value?.gt(0) ? value : null;
}
