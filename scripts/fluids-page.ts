/** The page of the stock fluids: what each holds, how it acts, and how that compares with what is printed on it. */
import {
  amountOfParticle,
  DEFAULT_REFERENCE,
  type Decimal,
  effectiveOsmolarity,
  findObservable,
  formatDecimal,
  formatQuantity,
  freeWaterHolds,
  measure,
  measureRatio,
  osmolarity,
  type Particle,
  particles,
  type Stated,
  type StockFluid,
  sourceTitle,
  stockFluids,
  tonicity,
  unit,
} from '../src/engine/index.ts';

const DIGITS = 4;

/** `docs/fluids.md`. */
export function fluidsPage(): string {
  const groups = [...new Set(stockFluids().map(({ group }) => group))];
  const sections = groups.map((group) => {
    const fluids = stockFluids().filter((fluid) => fluid.group === group);
    return `## ${group}\n\n${fluids.map(section).join('\n\n')}`;
  });
  return `<!-- Generated from shared/stock-fluids by \`npm run docs\`. -->

# Stock fluids

${INTRODUCTION}

${sections.join('\n\n')}
`;
}

const INTRODUCTION = `Fluids that are known by name, and the common strengths of simple solutions. Where the masses of salt are known, the
contents are worked out from them; else the ions are those of the label. Amounts are for 1 L unless they say otherwise.
Osmolarity counts every ion and molecule once, as labels do; what it makes of the tonicity, and the electrolyte-free
water, are explained in [method.md](method.md). Names are generic; products differ, and the label of the bag in hand
decides.`;

function section(fluid: StockFluid): string {
  const { name, difference, note } = fluid;
  return [
    `### ${name}`,
    ...[weighed(fluid), contents(fluid), action(fluid)].filter(Boolean),
    compared(fluid),
    difference,
    note,
    sources(fluid),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

function weighed({ recipe }: StockFluid): string {
  if (recipe.length === 0) return '';
  return `Weighed: ${recipe.map(({ substance, grams }) => `${substance.name} ${shown(grams)} g`).join(', ')}.`;
}

function contents({ perLitre }: StockFluid): string {
  const held = particles().flatMap((particle) => {
    const mmol = amountOfParticle(perLitre, particle);
    return mmol.isZero() ? [] : [`${particle.name} ${amount(mmol, particle)}`];
  });
  const missing = perLitre.notStated.map(({ name }) => name);
  const left = missing.length > 0 ? ` Not stated: ${missing.join(', ')}.` : '';
  return held.length === 0 ? `Holds no electrolytes.${left}` : `Holds: ${held.join(', ')}.${left}`;
}

function amount(mmol: Decimal, { charge }: Particle): string {
  const equivalents = mmol.times(Math.abs(charge));
  const second = Math.abs(charge) > 1 ? ` (${shown(equivalents)} mEq)` : '';
  return `${shown(mmol)} mmol${second}`;
}

function action({ perLitre }: StockFluid): string {
  const bag = osmolarity(perLitre);
  const body = effectiveOsmolarity(perLitre);
  const [inBag, inBody] = [bag, body].map((mOsm) => tonicity(mOsm, DEFAULT_REFERENCE));
  const verdict =
    inBag === inBody ? `${inBag} in the bag and in the body` : `${inBag} in the bag, ${inBody} in the body`;
  const effective = body.eq(bag) ? '' : `, ${shown(body)} mOsm/L of it effective`;
  const parts = [
    `${shown(bag)} mOsm/L${effective}: ${verdict}`,
    `electrolyte-free water ${freeWater(perLitre)}`,
    `sodium load ${told('sodium load', 'mmol/L', perLitre)}`,
  ];
  return `${parts.join('; ')}.`;
}

function freeWater(perLitre: StockFluid['perLitre']): string {
  return freeWaterHolds(perLitre)
    ? told('free water', 'mL/L', perLitre)
    : 'left out, since its rule does not hold here';
}

function told(observable: string, symbol: string, perLitre: StockFluid['perLitre']): string {
  const measured = measure(perLitre, findObservable(observable)!, unit(symbol), DEFAULT_REFERENCE);
  return measured.ok ? formatQuantity(measured.value, symbol, DIGITS) : 'not stated';
}

/** What is stated, beside what is worked out. */
function compared({ stated, perLitre }: StockFluid): string {
  if (stated.length === 0) return '';
  const rows = stated.map((figure) => {
    const { observable, value, source } = figure;
    const symbol = figure.unit === RATIO ? '' : ` ${figure.unit}`;
    const found = workedOut(figure, perLitre);
    return `| ${observable} | ${value.toFixed()}${symbol} | ${found ? shown(found) + symbol : 'not stated'} | ${sourceTitle(source)} |`;
  });
  return ['| | stated | worked out | where it is stated |', '| --- | --- | --- | --- |', ...rows].join('\n');
}

/** The unit of a ratio in the data. */
const RATIO = '1';

function workedOut({ observable, unit: symbol }: Stated, perLitre: StockFluid['perLitre']): Decimal | null {
  const asked = findObservable(observable)!;
  const measured =
    symbol === RATIO ? measureRatio(perLitre, asked) : measure(perLitre, asked, unit(symbol), DEFAULT_REFERENCE);
  return measured.ok ? measured.value : null;
}

/** Where the composition is from, and what else the table does not name. */
function sources({ sources: [recipe, ...others], stated }: StockFluid): string {
  const unnamed = others.filter((key) => !stated.some(({ source }) => source === key));
  return `Composition: ${[recipe!, ...unnamed].map(sourceTitle).join('; ')}.`;
}

function shown(value: Decimal): string {
  return formatDecimal(value, DIGITS);
}
