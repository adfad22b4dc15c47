/** The making-up worksheet of one mixture, as a sheet to print and fill in. */
import { type Contents, type Decimal, findObservable, formatDecimal, formatQuantity } from '../../engine/index.ts';
import type { WorkedMixture, WorkedNoteModel } from '../../note/index.ts';
import { isSheetBlock, type Sheet, type SheetBlock } from '../../text/sheet.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { CAUTION } from '../cards/caution.ts';
import { compositionTable, firstNumbers, verdict } from '../cards/composition.ts';
import { ranges, taken } from '../cards/mixture-card.ts';
import { resultText } from '../cards/results-text.ts';
import { measuredText } from '../cards/solved.ts';
import { type Cautions, ordersOf } from './cautions.ts';
import { labelBlocks, veinSentence } from './label.ts';
import { type Portion, portionsOf } from './portions.ts';
import { Scale, type Size } from './size.ts';

/** Where the note and its policy lie, as they are shown. */
export interface SheetAbout {
  readonly path: string | null;
  /** null: none, the built-in limits hold. */
  readonly policy: string | null;
}

/** Digits of amounts that were worked out, and of those that are written or stand on a measure. */
const WORKED_OUT = 4;
const WRITTEN = 12;
const OSMOLALITY = findObservable('osmolality')!;
const BOX = '☐';

export function sheetOf(
  mixture: WorkedMixture,
  written: Contents,
  model: WorkedNoteModel,
  cautions: Cautions,
  size: Size,
  about: SheetAbout,
): Sheet {
  const { policy } = model;
  const scale = new Scale(written.volume, size.to);
  const contents = scale.contents(written);
  const portions = portionsOf(mixture, model, scale);
  const title = mixture.entity.title?.text || mixture.name;
  const several = !size.bags.eq(1);
  return {
    title: `Worksheet: ${title}`,
    lead: [headTable(mixture.name, contents, size, about), ...errorsFirst(cautions)],
    sections: [
      {
        heading: 'Order of addition',
        blocks: [orderTable(portions, size), ...remarks(portions, written, scale, several)],
      },
      {
        heading: several ? 'Each finished bag' : 'The finished mixture',
        blocks: finished(
          { ...mixture, extremes: mixture.extremes.map((held) => scale.contents(held)) },
          contents,
          model,
        ),
      },
      {
        heading: several ? 'Label of each bag' : 'Label',
        blocks: labelBlocks({ title, portions, contents, orders: ordersOf(mixture, model), policy }),
      },
      { heading: 'Preparation record', blocks: [recordTable(portions)] },
      { heading: 'Cautions', blocks: cautionBlocks(cautions) },
      {
        heading: 'Taken without being written',
        blocks: [...taken(mixture, policy.terms), CAUTION].filter(isSheetBlock),
      },
    ],
  };
}

function headTable(name: string, { volume }: Contents, { bags }: Size, { path, policy }: SheetAbout): SheetBlock {
  const each = formatQuantity(volume, 'mL', WORKED_OUT);
  const inAll = formatQuantity(volume.times(bags), 'mL', WORKED_OUT);
  return table(
    ['', ''],
    [
      ['Mixture', name],
      ['Note', path ?? 'not saved'],
      ['Local policy', policy ?? 'none; the built-in limits hold'],
      ['Bags', formatDecimal(bags)],
      ['Final volume', bags.eq(1) ? each : `${each} in each bag, ${inAll} in all`],
      ['Made up on: date, time', ''],
    ],
  );
}

function errorsFirst({ errors }: Cautions): SheetBlock[] {
  if (errors === 0) return [];
  const text = `${errors === 1 ? 'An error stands' : `${errors} errors stand`} open in the note: read the cautions below before making this up.`;
  return [{ kind: 'paragraph', inline: [{ text, weight: 'strong' }] }];
}

function orderTable(portions: readonly Portion[], { bags }: Size): SheetBlock {
  const several = !bags.eq(1);
  const titles = ['', 'What to do', several ? 'Each bag' : 'Amount', 'Measured as', 'Then in the bag'];
  if (several) titles.push(`For ${formatDecimal(bags)} bags in all`);
  return table(
    titles,
    portions.map((portion, index) => [
      String(index + 1),
      actionText(portion),
      amountText(portion, portion.amount),
      measureText(portion),
      formatQuantity(portion.leaves, 'mL', WORKED_OUT),
      ...(several ? [amountText(portion, portion.amount.times(bags))] : []),
    ]),
  );
}

function actionText(portion: Portion): string {
  const { action, of, holds, containers, madeBefore, leaves } = portion;
  if (action === 'withdraw') return 'Withdraw and discard, well mixed';
  if (action === 'make up') return `Make up with ${of} to ${formatQuantity(leaves, 'mL', WORKED_OUT)}`;
  const extra = [
    ...(containers ? [containersText(containers)] : []),
    ...(holds ? [`for ${formatQuantity(holds.value, holds.unit.symbol, WORKED_OUT)}`] : []),
    ...(madeBefore ? ['made up before, by its own worksheet'] : []),
  ];
  return `Add ${of}${extra.length > 0 ? ` (${extra.join('; ')})` : ''}`;
}

function containersText({ count, each }: NonNullable<Portion['containers']>): string {
  const number = formatDecimal(count, WORKED_OUT);
  if (each) return `${number} of ${formatQuantity(each.value, each.unit.symbol, WORKED_OUT)}`;
  return count.eq(1) ? 'one whole' : `${number} whole ones`;
}

function amountText({ unit, written, action }: Portion, amount: Decimal): string {
  const text = formatQuantity(amount, unit, written ? WRITTEN : WORKED_OUT);
  return action === 'make up' ? `about ${text}` : text;
}

/** The nearest that can be measured of what was worked out, and with what. */
function measureText({ action, written, measured, unit }: Portion): string {
  if (action === 'make up') return 'to the mark';
  if (written) return 'as written';
  return measured ? `${formatQuantity(measured.value, unit, WRITTEN)} (${measured.with})` : 'in parts';
}

/** What rounding to a measure costs, and what another size leaves unchecked. */
function remarks(portions: readonly Portion[], written: Contents, scale: Scale, several: boolean): SheetBlock[] {
  const told: string[] = [];
  if (scale.changes) {
    told.push(
      `Brought from ${formatQuantity(written.volume, 'mL', 6)} to ${formatQuantity(scale.to, 'mL', 6)}, every amount by the same factor. Strengths stay, and with them what was checked of dissolving; what can be measured was looked for anew. Not checked again: whether it fits its containers, whole ampoules, and what the note says of a whole bag.`,
    );
  }
  if (several) told.push('Each bag is made up by itself; the last column is what to have at hand.');
  for (const { solved, action } of portions) {
    const costs = solved && action !== 'make up' && !scale.changes ? measuredText(solved) : null;
    if (costs) told.push(costs);
  }
  const all = [...new Set(told)];
  if (portions.some(({ measured }) => measured))
    all.push('Strengths below are those of the exact amounts, before they are rounded to a measure.');
  return all.length > 0 ? [{ kind: 'list', items: all.map(plain) }] : [];
}

function finished(mixture: WorkedMixture, contents: Contents, { policy }: WorkedNoteModel): SheetBlock[] {
  const { reference } = policy;
  const osmolality = resultText({ contents, extremes: mixture.extremes }, OSMOLALITY, reference);
  const trees: Tree[] = [
    { kind: 'paragraph', inline: plain(verdict(contents, reference)) },
    { kind: 'paragraph', inline: plain(veinSentence(contents, policy)) },
    firstNumbers(contents, policy),
    compositionTable(contents, policy, 'in the bag'),
    ...(osmolality === '–'
      ? []
      : [{ kind: 'paragraph' as const, inline: plain(`Estimated osmolality: ${osmolality}.`) }]),
    ...ranges(mixture, contents, reference),
  ];
  return trees.filter(isSheetBlock);
}

function recordTable(portions: readonly Portion[]): SheetBlock {
  return table(
    ['', 'Ingredient', 'Amount', 'Product and maker', 'Lot', 'Expiry', 'Prepared', 'Checked'],
    portions.map((portion, index) => {
      const { action, of } = portion;
      const nothing = action === 'withdraw' ? '–' : '';
      return [
        String(index + 1),
        of ?? 'withdrawn and discarded',
        amountText(portion, portion.amount),
        nothing,
        nothing,
        nothing,
        BOX,
        BOX,
      ];
    }),
  );
}

function cautionBlocks({ items }: Cautions): SheetBlock[] {
  return items.length > 0
    ? [{ kind: 'list', items }]
    : [{ kind: 'paragraph', inline: plain('Nothing was found in this mixture, nor in the orders that give it.') }];
}

function table(titles: readonly string[], rows: readonly (readonly string[])[]): SheetBlock {
  return { kind: 'table', columns: titles.map((title) => ({ title, align: 'text' })), rows };
}
