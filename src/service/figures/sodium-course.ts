/** The predicted course of a patient's serum sodium under all orders for him. */
import { type Decimal, decimal, formatDecimal, formatQuantity, SODIUM_ERROR } from '../../engine/index.ts';
import { courseOf, endOfOrders, type OrderScene, pacesOf, pointAt } from '../../note/index.ts';
import type { SodiumCourse } from '../../text/figures.ts';
import type { Tree } from '../../text/tree.ts';

/** Points drawn at most; a course of two weeks has more. */
const MOST_POINTS = 200;
const DAY = decimal(24);

/** Nothing where no prediction can be made; the card says why. */
export function sodiumCourseFigure(scene: OrderScene): Tree[] {
  const { patient, orders } = scene;
  const start = patient?.facts.serum.sodium;
  if (!patient || !start || orders.length === 0) return [];
  const horizon = endOfOrders(orders);
  const course = courseOf(scene, horizon.gt(DAY) ? horizon : DAY);
  if (!course?.ok || course.points.length < 2) return [];
  const limit = pacesOf(scene).map(({ until, most }) => ({ until, sodium: start.plus(most) }));
  const last = course.points[course.points.length - 1]!;
  const hours = [...new Set([DAY, last.hour])].filter((hour, index, all) => index === 0 || !hour.eq(all[0]!));
  const told = hours.flatMap((hour) => {
    const point = pointAt(course.points, hour);
    return point?.hour.eq(hour) ? [`${mmol(point.massBalance)} at ${formatQuantity(hour, 'h')}`] : [];
  });
  const limits = limit.map(({ until, sodium }) => `${mmol(sodium)} up to ${formatQuantity(until, 'h')}`);
  const points = course.points.filter(
    (_, index, all) => index % Math.ceil(all.length / MOST_POINTS) === 0 || index === all.length - 1,
  );
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'sodium-course',
        name: 'Predicted serum sodium, and when each order runs',
        sentence: `Serum sodium in mmol/L, ${mmol(start)} at the start: predicted ${told.join(', ')}, by mass balance; such predictions missed by up to ${formatDecimal(SODIUM_ERROR.most)}.${limits.length > 0 ? ` Limit: ${limits.join(', ')}.` : ''} ${ordersInWords(scene)}`,
        points: points.map(({ hour, massBalance, regression }) => ({
          hour: hour.toNumber(),
          sodium: massBalance.toNumber(),
          regression: regression.toNumber(),
        })),
        error: SODIUM_ERROR.most.toNumber(),
        limit: limit.map(({ until, sodium }) => ({ until: until.toNumber(), sodium: sodium.toNumber() })),
        orders: drawnOrders(scene, last.hour),
      },
    },
  ];
}

function drawnOrders({ orders }: OrderScene, end: Decimal): SodiumCourse['orders'] {
  return orders.map(({ name, fluid, runs, endless }) => ({
    name: name || fluid,
    runs: runs.map((run) => [run.start.toNumber(), (endless && runs.length === 1 ? end : run.end).toNumber()] as const),
  }));
}

function ordersInWords({ orders }: OrderScene): string {
  return orders
    .map(({ name, fluid, runs, endless }) => {
      const [first, last] = [runs[0], runs[runs.length - 1]];
      if (!first || !last) return '';
      const until = endless ? 'until it is stopped' : `to ${formatQuantity(last.end, 'h')}`;
      const parts = runs.length > 1 ? ` in ${runs.length} parts` : '';
      return `‘${name || fluid}’ runs${parts} from ${formatQuantity(first.start, 'h')} ${until}.`;
    })
    .join(' ');
}

/** One decimal place, as laboratories print it. */
function mmol(value: Decimal): string {
  return formatDecimal(value.toDecimalPlaces(1), 4);
}
