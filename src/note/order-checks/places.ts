/** Where in an order a finding stands. */
import type { GiveNode, Span } from '../../notation/ast.ts';

/** What says how fast: the rate, else the time, else the amount, else the fluid. */
export function rateSpan({ rate, clauses, amount, fluid }: GiveNode): Span {
  const over = clauses.find((clause) => clause.kind === 'duration');
  return (rate ?? over?.time ?? amount ?? fluid).span;
}

/** The words of the route, else the fluid. */
export function routeSpan({ clauses, fluid }: GiveNode): Span {
  const by = clauses.find((clause) => clause.kind === 'route');
  return (by?.route ?? fluid).span;
}
