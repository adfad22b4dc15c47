/** What all ions together add to the osmolality. Published model: floats. */
import { interactionOf } from './interactions.ts';
import { type Dissolved, osmoticCoefficient, strengthOf } from './pitzer.ts';
import { total } from './solution.ts';

/** A cation with an anion, and what was taken for their salt. */
interface IonPair {
  /** `sodium lactate`. */
  readonly name: string;
  /** Of all charges. */
  readonly share: number;
  /** Id of the family of the salt whose parameters were taken; null where only the charges count. */
  readonly salt: string | null;
  readonly standIn: boolean;
  /** Key into `shared/sources.json`, or the words that say there is none. */
  readonly source: string;
  /** The ionic strength over the highest that the parameters reach. */
  readonly reach: number;
  /** Share by which it may be off, at low strength. */
  readonly uncertainty: number;
}

/** The share of all ions in an osmolality. */
export interface IonPart {
  readonly kind: 'ions';
  readonly pairs: readonly IonPair[];
  /** mol of ions in 1 kg of water. */
  readonly molality: number;
  /** mol/kg of water. */
  readonly ionicStrength: number;
  readonly coefficient: number;
  readonly mOsmPerKg: number;
  readonly uncertainty: number;
}

/** All ions as one, with the pairs that made their coefficient. */
export function ionPart(ions: readonly Dissolved[]): IonPart {
  const molality = total(ions, (ion) => ion.molality);
  const ionicStrength = strengthOf(ions);
  const coefficient = osmoticCoefficient(ions, interactionOf);
  const pairs = pairsOf(ions, ionicStrength);
  return {
    kind: 'ions',
    pairs,
    molality,
    ionicStrength,
    coefficient,
    mOsmPerKg: 1000 * molality * coefficient,
    uncertainty: total(pairs, ({ share, uncertainty }) => share * uncertainty),
  };
}

function pairsOf(ions: readonly Dissolved[], ionicStrength: number): readonly IonPair[] {
  const cations = ions.filter(({ charge }) => charge > 0);
  const anions = ions.filter(({ charge }) => charge < 0);
  const chargesOf = (ion: Dissolved) => Math.abs(ion.charge) * ion.molality;
  const [positive, negative] = [total(cations, chargesOf), total(anions, chargesOf)];
  return cations.flatMap((cation) =>
    anions.map((anion) => {
      const { set, standIn, maxIonicStrength, uncertainty } = interactionOf(cation, anion);
      const reach = ionicStrength / maxIonicStrength;
      return {
        name: `${cation.name} ${anion.name}`,
        share: (chargesOf(cation) / positive) * (chargesOf(anion) / negative),
        salt: set?.salt ?? null,
        standIn,
        source: set?.source ?? 'worked out here',
        reach,
        uncertainty: uncertainty * Math.max(1, reach),
      };
    }),
  );
}
