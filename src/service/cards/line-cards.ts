/** Cards of what stands on a line: an ingredient, a solute, an ion, a claim, a comparison. */

import { rangeText } from '../../checks/index.ts';
import {
  type Contents,
  type Decimal,
  decimal,
  dissociationFactor,
  formatDecimal,
  formatQuantity,
  type Ion,
  type Reference,
  type Substance,
  sourceTitle,
  workingText,
} from '../../engine/index.ts';
import type {
  MentionedSubstance,
  Policy,
  Solved,
  WorkedClaim,
  WorkedComparison,
  WorkedStep,
} from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { nameInTerms, sentenceInTerms } from '../terms.ts';
import { CAUTION } from './caution.ts';
import { amountText, particlesOf } from './composition.ts';
import { comparisonTable, errorOf } from './results-text.ts';
import { measuredText, solvedText } from './solved.ts';

type Terms = Policy['terms'];

/** What one line brings or takes away, and how that was worked out. */
export function stepCard(step: WorkedStep, written: string, solved: readonly Solved[], terms: Terms): readonly Tree[] {
  const before = formatQuantity(step.before.volume, 'mL');
  const after = formatQuantity(step.after.volume, 'mL');
  const tree: Tree[] = [{ kind: 'heading', text: written, aside: `${before} → ${after}` }];
  for (const unknown of solved) {
    const measured = measuredText(unknown);
    const inline = plain(`Solved: ${solvedText(unknown)}.${measured ? ` ${measured}` : ''}`);
    tree.push({ kind: 'paragraph', inline });
  }
  const change = changeOf(step, terms);
  if (change.length > 0) {
    tree.push({
      kind: 'table',
      columns: [
        { title: '', align: 'text' },
        { title: 'this line', align: 'number' },
        { title: 'then in the bag', align: 'number' },
      ],
      rows: change,
    });
  }
  if (step.working.length > 0)
    tree.push({ kind: 'list', items: step.working.map((line) => plain(sentenceInTerms(workingText(line), terms))) });
  return tree;
}

/** Particle by particle, what the line changes. */
function changeOf(step: WorkedStep, terms: Terms): string[][] {
  const touched: Contents = { ...step.after, particles: new Map([...step.before.particles, ...step.after.particles]) };
  return particlesOf(touched).map(({ particle }) => {
    const before = step.before.particles.get(particle) ?? decimal(0);
    const after = step.after.particles.get(particle) ?? decimal(0);
    const difference = after.minus(before);
    const told = (amount: Decimal) => amountText(amount, particle, terms);
    return [nameInTerms(particle.name, terms), difference.isZero() ? '–' : told(difference), told(after)];
  });
}

/** Molar mass, hydrate taken, ions, sources. */
export function substanceFacts({ substance, written, from }: MentionedSubstance, terms: Terms): readonly Tree[] {
  const gives = substance.gives.map(({ particle, count }) => {
    const name = nameInTerms(particle.name, terms);
    return count > 1 ? `${count} ${name}` : name;
  });
  const name = nameInTerms(substance.name, terms);
  const named = written.toLowerCase() === name.toLowerCase() ? name : `${written}, taken as ${name}`;
  const mass = substance.molarMass
    ? `Molar mass ${formatQuantity(substance.molarMass, 'g/mol', 6)}.`
    : 'Without a molar mass: counted by its mass.';
  const dissolved = gives.length > 0 ? `Dissolved: ${gives.join(' and ')}.` : '';
  const freezing = freezingFacts(substance);
  return [
    { kind: 'heading', text: named, ...(substance.formula && { aside: substance.formula }) },
    { kind: 'paragraph', inline: plain(`${mass} ${dissolved}`) },
    ...(freezing ? [{ kind: 'paragraph', inline: plain(freezing) } as const] : []),
    ...(from === null ? [] : [{ kind: 'paragraph', inline: plain(`From the note ‘${from}’.`) } as const]),
    {
      kind: 'paragraph',
      inline: [{ text: `Sources: ${substance.sources.map(sourceTitle).join('; ')}.`, weight: 'quiet' }],
    },
  ];
}

/** What a gram does to the freezing point, and by which rule when the note gives how far it dissociates. */
function freezingFacts({ sodiumChlorideEquivalent, dissociation, gives }: Substance): string | null {
  if (!sodiumChlorideEquivalent) return null;
  const equivalent = `1 g lowers the freezing point like ${formatQuantity(sodiumChlorideEquivalent, 'g', 4)} of sodium chloride.`;
  if (!dissociation) return equivalent;
  const ions = gives.reduce((sum, { count }) => sum + count, 0);
  const particles = formatDecimal(dissociationFactor(dissociation, ions), 4);
  const share = formatQuantity(dissociation.times(100), '%', 4);
  return `${equivalent} ${share} dissociated, a molecule counts there as ${particles} particles (i); osmolarity counts every ion.`;
}

export function ionFacts({ name, charge, molarMass, forms }: Ion): readonly Tree[] {
  const aside = charge === null ? 'charge by acidity' : `charge ${charge > 0 ? '+' : '−'}${Math.abs(charge)}`;
  const tree: Tree[] = [{ kind: 'heading', text: name, aside }];
  if (molarMass)
    tree.push({ kind: 'paragraph', inline: plain(`Molar mass ${formatQuantity(molarMass, 'g/mol', 6)}.`) });
  if (forms.length > 1) {
    tree.push({
      kind: 'paragraph',
      inline: plain(`Counted together: ${forms.map((form) => form.name).join(' and ')}.`),
    });
  }
  return tree;
}

export function claimCard(claim: WorkedClaim): readonly Tree[] {
  const { outcome, observable, subject } = claim;
  const heading: Tree = { kind: 'heading', text: subject, aside: observable.name };
  if (outcome.kind === 'tonicity') {
    const holds = outcome.claimed === outcome.found ? 'The claim holds' : 'The claim does not hold';
    return [
      heading,
      {
        kind: 'paragraph',
        inline: plain(`${holds}: ${formatQuantity(outcome.osmolarity, 'mOsm/L')} is ${outcome.found}.`),
      },
    ];
  }
  const { unit: of, range } = outcome;
  const told = (value: Decimal, digits: number) =>
    of ? formatQuantity(value, of.symbol, digits) : formatDecimal(value, digits);
  const claimed = told(outcome.claimed, 12);
  const found = `${told(outcome.found, 6)}${rangeText(range, of?.symbol ?? '')}`;
  const holds = outcome.holds ? 'The claim holds' : 'The claim does not hold';
  return [
    heading,
    {
      kind: 'paragraph',
      inline: plain(`${holds}: ${claimed} is claimed, and it works out at ${found}${errorOf(observable)}.`),
    },
  ];
}

export function comparisonCard(comparison: WorkedComparison, reference: Reference): readonly Tree[] {
  return [{ kind: 'heading', text: 'Comparison' }, comparisonTable(comparison, reference), CAUTION];
}
