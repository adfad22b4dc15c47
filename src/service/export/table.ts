/** An order or a mixture as a flat table for spreadsheets: what it is, what goes into it, what comes out, what was found. */
import {
  type Contents,
  type Decimal,
  exactText,
  type Observable,
  type ObservableKind,
  results,
  times,
  unit,
} from '../../engine/index.ts';
import { allResults, type Held, rangeOf, type WorkedNoteModel, type WorkedOrder } from '../../note/index.ts';
import { type CsvCell, csvText } from '../../render/csv.ts';
import { sceneIn } from '../orders.ts';
import { factsOf } from './facts.ts';
import { type OutcomeItem, toldOf } from './outcome.ts';
import type { Product } from './product.ts';
import { dosageText, figuresOf } from './request.ts';
import { solutesPerLitre } from './solutes.ts';
import type { Subject } from './subject.ts';
import { clean } from './texts.ts';

const HEADINGS = ['record', 'item', 'value', 'unit', 'per', 'least', 'most', 'text'] as const;

type Row = Partial<Readonly<Record<(typeof HEADINGS)[number], string | Decimal>>> & { readonly record: string };

export interface TableParts {
  readonly subject: Subject;
  readonly product: Product;
  readonly outcome: readonly OutcomeItem[];
  /** Sentences on the whole of it. */
  readonly remarks: readonly string[];
  readonly model: WorkedNoteModel;
}

export function tableText({ subject, product, outcome, remarks, model }: TableParts): string {
  const rows: readonly Row[] = [
    ...(subject.kind === 'order' ? orderRows(subject.order, product) : mixtureRows(product)),
    ...(product.recipe?.lines ?? []).map((text, index) => ({ record: 'step', item: String(index + 1), text })),
    ...ingredientRows(product),
    ...(subject.kind === 'order' ? orderResults(subject.order, product, model) : mixtureResults(product, model)),
    ...outcome.map((item) => ({
      record: item.accepted === null ? item.severity : `accepted ${item.severity}`,
      item: item.code,
      text: `line ${item.line}: ${toldOf(item)}`,
    })),
    ...remarks.map((text) => ({ record: 'remark', text })),
  ];
  return csvText([HEADINGS, ...rows.map((row) => HEADINGS.map((heading) => cell(row[heading])))]);
}

function cell(value: string | Decimal | undefined): CsvCell {
  if (value === undefined) return '';
  return typeof value === 'string' ? clean(value) : { number: exactText(value) };
}

function orderRows(order: WorkedOrder, { name }: Product): readonly Row[] {
  const facts = order.patient ? factsOf(order.patient) : [];
  return [
    { record: 'order', item: order.name, text: dosageText(order, name) },
    ...figuresOf(order).map((figure) => ({ record: 'order', ...figure })),
    { record: 'order', item: 'route', text: order.route?.name ?? 'none is written' },
    ...facts.map(({ name: item, value, unit: of }) => ({ record: 'patient', item, value, unit: of })),
  ];
}

function mixtureRows({ name, recipe }: Product): readonly Row[] {
  return [{ record: 'mixture', item: recipe?.mixture.name ?? name, text: name }];
}

/** What of each thing is in a finished recipe; of a fluid without one, what a litre holds. */
function ingredientRows({ recipe, contents }: Product): readonly Row[] {
  if (!recipe)
    return [
      ...solutesPerLitre(contents).map(({ name, amount, unit: of }) => ingredient(name, amount, of, '1 L')),
      ...contents.uncounted.map((name) => ({ record: 'ingredient', item: name, text: 'amount not counted' })),
    ];
  const whole = `${exactText(contents.volume)} mL`;
  return recipe.parts.flatMap((part) =>
    part.kind === 'solutes'
      ? part.solutes.map(({ name, amount, unit: of }) => ingredient(name, amount, of, whole))
      : [ingredient(part.name, part.contents.volume, 'mL', whole)],
  );
}

function ingredient(item: string, value: Decimal, of: string, per: string): Row {
  return { record: 'ingredient', item, value, unit: of, per };
}

/** What becomes of it in a body is a model with an error of its own, and is told by the card of the order. */
const IN_THE_BODY: ReadonlySet<ObservableKind> = new Set([
  'predicted-sodium',
  'free-water-for-patient',
  'plasma',
  'interstitium',
  'cells',
]);

function orderResults(order: WorkedOrder, { recipe }: Product, model: WorkedNoteModel): readonly Row[] {
  const per = order.endless ? 'first 24 h' : 'the order';
  const contents = order.contents as Contents;
  const extremes = recipe?.mixture.extremes ?? [];
  const held = { contents, extremes: extremes.map((one) => times(one, contents.volume.div(one.volume))) };
  return allResults(order, sceneIn(model, order))
    .filter(({ observable }) => !IN_THE_BODY.has(observable.kind))
    .map(({ observable, value, unit: of }) => ({
      record: 'result',
      item: observable.name,
      value,
      unit: of,
      // A result that has its own measure, such as mmol/L, is of nothing else.
      per: of.includes('/') || of === '%' ? '' : per,
      ...(observable.of.includes('mixture') ? ends(held, observable, of, model) : {}),
    }));
}

function mixtureResults({ contents, recipe }: Product, model: WorkedNoteModel): readonly Row[] {
  const held = { contents, extremes: recipe?.mixture.extremes ?? [] };
  return results(contents, model.policy.reference).map(({ observable, value, unit: of }) => ({
    record: 'result',
    item: observable.name,
    value,
    unit: of,
    ...ends(held, observable, of, model),
  }));
}

/** Where tolerances, or a model's own error, leave a range. */
function ends(held: Held, observable: Observable, of: string, { policy }: WorkedNoteModel): Partial<Row> {
  const range = rangeOf(held, observable, unit(of), policy.reference);
  return range ? { least: range[0], most: range[1] } : {};
}
