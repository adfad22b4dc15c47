/** What the orders of a patient are predicted to do to his serum sodium, with all that makes the prediction uncertain. */
import { type Decimal, decimal, formatDecimal, formatQuantity, SODIUM_ERROR } from '../../engine/index.ts';
import { courseOf, endOfOrders, type OrderScene, pointAt, reachesBody } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';

const HORIZONS = [24, 48].map(decimal);
/** mmol/L of sodium shown with one decimal place. */
const PLACES = 1;

/** Nothing where no patient, no order or no serum sodium is written. */
export function sodiumOutlook(scene: OrderScene): Tree[] {
  const { patient, orders } = scene;
  const sodium = patient?.facts.serum.sodium;
  if (!patient || !sodium || orders.length === 0) return [];
  const end = endOfOrders(orders);
  const last = HORIZONS.reduce((latest, hour) => (hour.gt(latest) ? hour : latest), end);
  const course = courseOf(scene, last);
  if (!course) return [];
  if (!course.ok) {
    const why =
      course.why === 'missing'
        ? `${course.value} is not written`
        : course.why === 'withheld'
          ? 'an order for this patient could not be worked out'
          : `the water of ${course.order.name || course.order.fluid} goes by another rule`;
    return [quiet(`Serum sodium is not predicted: ${why}.`)];
  }
  const others = HORIZONS.filter((hour) => !hour.eq(end));
  const hours = [...others, end].sort((a, b) => a.cmp(b));
  const ending = orders.some(({ endless }) => !endless);
  const told = hours.flatMap((hour) => {
    const point = pointAt(course.points, hour);
    if (!point) return [];
    return [
      `${mmol(point.massBalance)} at ${formatQuantity(hour, 'h')}${hour.eq(end) && ending ? ', the end of the orders' : ''} (by regression ${mmol(point.regression)})`,
    ];
  });
  if (told.length === 0)
    return [quiet('Serum sodium is not predicted: the losses written would take all the water there is.')];
  const { least, most } = SODIUM_ERROR;
  const counted = course.counted.map(({ name }) => name);
  const losses =
    counted.length > 0 ? `Counted as lost: ${counted.join(', ')}.` : 'No urine and no other loss is counted.';
  const left = course.notCounted.map(({ name }) => name);
  const outside = orders.filter((order) => !reachesBody(order)).map(({ name, fluid }) => name || fluid);
  const notInside = outside.length > 0 ? ` Not counted, since it stays outside the body: ${outside.join(', ')}.` : '';
  const leftOut = left.length > 0 ? ` Left out, their sodium and potassium not being written: ${left.join(', ')}.` : '';
  return [
    {
      kind: 'paragraph',
      inline: [
        {
          text: `Predicted serum sodium: ${mmol(sodium)} now, ${told.join(', ')} mmol/L, with all orders of ‘${patient.name}’. `,
        },
        {
          text: `Such predictions missed by ${formatDecimal(least)} to ${formatDecimal(most)} mmol/L (${SODIUM_ERROR.source}). ${losses}${leftOut}${notInside} A water diuresis can more than double a rise: measure.`,
          weight: 'quiet',
        },
      ],
    },
  ];
}

function mmol(value: Decimal): string {
  return formatDecimal(value.toDecimalPlaces(PLACES), 4);
}

function quiet(text: string): Tree {
  return { kind: 'paragraph', inline: [{ text, weight: 'quiet' }] };
}
