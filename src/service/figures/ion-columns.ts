/** A liquid's ions beside plasma's. */
import { type Contents, type Decimal, decimal, formatDecimal, ionOf, PLASMA } from '../../engine/index.ts';
import type { Policy } from '../../note/index.ts';
import type { IonStacks } from '../../text/figures.ts';
import type { Tree } from '../../text/tree.ts';
import { particlesOf } from '../cards/composition.ts';
import { nameInTerms } from '../terms.ts';

const LITRE = decimal(1000);

interface Share {
  readonly name: string;
  readonly mEq: Decimal;
}
interface Stacks {
  readonly cations: readonly Share[];
  readonly anions: readonly Share[];
}

/** Nothing for a liquid without ions. */
export function ionFigure(name: string, contents: Contents, terms: Policy['terms']): Tree[] {
  const stacks = stacksOf(contents, terms);
  if (stacks.cations.length + stacks.anions.length === 0) return [];
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'ion-columns',
        name: 'Cations and anions beside plasma’s',
        sentence: `In mEq/L: ${inWords(stacks)}. In plasma, about: ${inWords(PLASMA)}.`,
        liquid: drawn(name, stacks),
        plasma: drawn('plasma', PLASMA),
      },
    },
  ];
}

/** mEq/L of each ion, its forms together, in the order in which ions are always named. */
function stacksOf(contents: Contents, terms: Policy['terms']): Stacks {
  const [cations, anions] = [new Map<string, Decimal>(), new Map<string, Decimal>()];
  for (const { particle, amount } of particlesOf(contents)) {
    if (particle.charge === 0) continue;
    const stack = particle.charge > 0 ? cations : anions;
    const name = nameInTerms(ionOf(particle)?.name ?? particle.name, terms);
    const mEq = amount.times(Math.abs(particle.charge)).times(LITRE).div(contents.volume);
    stack.set(name, (stack.get(name) ?? decimal(0)).plus(mEq));
  }
  const shares = (stack: ReadonlyMap<string, Decimal>) => [...stack].map(([name, mEq]) => ({ name, mEq }));
  return { cations: shares(cations), anions: shares(anions) };
}

function inWords({ cations, anions }: Stacks): string {
  const told = (stack: readonly Share[]) =>
    stack.length === 0 ? 'none' : stack.map(({ name, mEq }) => `${name} ${formatDecimal(mEq)}`).join(', ');
  return `cations ${told(cations)}; anions ${told(anions)}`;
}

function drawn(name: string, { cations, anions }: Stacks): IonStacks {
  const shares = (stack: readonly Share[]) => stack.map((share) => ({ name: share.name, mEq: share.mEq.toNumber() }));
  return { name, cations: shares(cations), anions: shares(anions) };
}
