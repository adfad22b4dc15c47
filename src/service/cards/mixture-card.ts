/** The card of a mixture's name, and of a fluid of known composition. */
import {
  type Contents,
  decimal,
  findObservable,
  formatDecimal,
  formatQuantity,
  type Reference,
  resultWorking,
  times,
  unit,
  type WorkingStep,
  workingText,
} from '../../engine/index.ts';
import { type Policy, resultOf, type WorkedMixture } from '../../note/index.ts';
import { type Inline, plain, type Tree } from '../../text/tree.ts';
import { sentenceInTerms } from '../terms.ts';
import { assumptionText } from './assumptions.ts';
import { CAUTION } from './caution.ts';
import { bagFigure, compositionTable, firstNumbers, verdict } from './composition.ts';
import { resultText } from './results-text.ts';

/** How many lines of working a card shows; the command line and the note itself hold the rest. */
const WORKING_LINES = 5;
const FURTHER = [
  { name: 'Calculated osmolarity', observable: findObservable('osmolarity')! },
  { name: 'osmolality about', observable: findObservable('osmolality')! },
  { name: 'strong ion difference', observable: findObservable('strong ion difference')! },
];
const RANGED = ['volume', 'sodium', 'potassium', 'osmolarity', 'free water'].map((key) => findObservable(key)!);
/** Ions whose division is shown; the table holds the others' results. */
const FIRST = new Set(['sodium', 'potassium']);

export function mixtureCard(mixture: WorkedMixture, contents: Contents, policy: Policy): readonly Tree[] {
  const { reference, terms } = policy;
  const title = mixture.entity.title?.text || mixture.name;
  return [
    { kind: 'heading', text: title, aside: formatQuantity(contents.volume, 'mL') },
    { kind: 'paragraph', inline: plain(verdict(contents, reference)) },
    firstNumbers(contents, policy),
    bagFigure(contents, reference),
    compositionTable(contents, policy, 'whole bag'),
    furtherNumbers(contents, reference),
    { kind: 'paragraph', inline: [{ text: 'How it was worked out', weight: 'strong' }] },
    { kind: 'list', items: workingLines(mixture, contents, policy) },
    ...ranges(mixture, contents, reference),
    ...taken(mixture, terms),
    CAUTION,
  ];
}

/** A mixture or stock of another note: its card, with the note that it is from. Nothing of its places is told. */
export function usedCard(mixture: WorkedMixture, from: string, policy: Policy): readonly Tree[] {
  if (!mixture.contents) return [];
  const [heading, ...card] = mixtureCard(mixture, mixture.contents, policy);
  return [heading!, { kind: 'paragraph', inline: plain(`From the note ‘${from}’.`) }, ...card];
}

/** A litre of a built-in fluid, or of a strength. */
export function fluidCard(name: string, perMl: Contents, policy: Policy): readonly Tree[] {
  const { reference } = policy;
  const litre = times(perMl, decimal(1000));
  return [
    { kind: 'heading', text: name, aside: 'one litre' },
    { kind: 'paragraph', inline: plain(verdict(litre, reference)) },
    firstNumbers(litre, policy),
    bagFigure(litre, reference),
    compositionTable(litre, policy, ''),
    furtherNumbers(litre, reference),
    CAUTION,
  ];
}

/** Osmolarity, what an osmometer would read of it, and what it brings by way of acid and base, where that is known. */
export function furtherNumbers(contents: Contents, reference: Reference): Tree {
  const parts = FURTHER.flatMap(({ name, observable }) => {
    const of = unit(observable.unit);
    const found = resultOf(contents, observable, of, reference);
    if (!found.ok) return [];
    const within = 'within' in found && found.within ? ` ± ${formatDecimal(found.within, 2)}` : '';
    return [`${name} ${formatDecimal(found.value)}${within} ${of.symbol}`];
  });
  return { kind: 'paragraph', inline: plain(`${parts.join(' · ')}.`) };
}

/** A mixture without results: why, and where. */
export function withheldCard(mixture: WorkedMixture, line: number, message: string | null): readonly Tree[] {
  const title = mixture.entity.title?.text || mixture.name;
  return [
    { kind: 'heading', text: title, aside: 'no results' },
    {
      kind: 'paragraph',
      inline: plain(`Nothing is worked out until line ${line} is mended.${message ? ` ${message}` : ''}`),
    },
  ];
}

/** The lines' own working, then how sodium, osmolarity and free water come about. */
export function workingLines(
  mixture: WorkedMixture,
  contents: Contents,
  { reference, terms }: Policy,
  most = WORKING_LINES,
  written: (step: WorkingStep) => string = withSubject,
): Inline[] {
  const ofLines = [...new Set(mixture.steps.flatMap(({ working }) => working.map(written)))];
  const shown = ofLines.slice(0, most);
  if (ofLines.length > shown.length) shown.push(`and ${ofLines.length - shown.length} more, on the lines themselves`);
  const ofResults = resultWorking(contents, reference).filter(({ kind, of }) => kind !== 'per-litre' || FIRST.has(of));
  return [...shown, ...ofResults.map(written)].map((line) => plain(sentenceInTerms(line, terms)));
}

export function withSubject(step: WorkingStep): string {
  return `${step.of}: ${workingText(step)}`;
}

/** What the first results range over, when amounts carry tolerances. */
export function ranges(
  { extremes }: Pick<WorkedMixture, 'extremes'>,
  contents: Contents,
  reference: Reference,
): Tree[] {
  if (extremes.length === 0) return [];
  const texts = RANGED.map(
    (observable) => `${observable.name} ${resultText({ contents, extremes }, observable, reference)}`,
  );
  return [{ kind: 'paragraph', inline: plain(`With the tolerances written: ${texts.join(', ')}.`) }];
}

export function taken(mixture: WorkedMixture, terms: Policy['terms']): Tree[] {
  const texts = [
    'volumes of liquids add',
    ...mixture.assumptions.map((assumption) => assumptionText(assumption, terms)),
  ];
  return [{ kind: 'paragraph', inline: [{ text: `Taken: ${texts.join('; ')}.`, weight: 'quiet' }] }];
}
