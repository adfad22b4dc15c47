/** The ways by which a fluid is given: a closed list. */
import { nameKey } from './names.ts';
import { ROUTE_DATA } from './reference.ts';

/** What a route leads into, as far as the arithmetic and the limits differ. */
export type Into = 'vein' | 'marrow' | 'gut' | 'tissue' | 'muscle' | 'peritoneum' | 'bladder' | 'circuit' | 'surface';

export interface Route {
  readonly id: string;
  /** As it is written in a sentence after ‘by’: `peripheral vein`. */
  readonly name: string;
  readonly into: Into;
  /** Of a vein: whether it is a peripheral one; null when that is not said. */
  readonly peripheral: boolean | null;
}

const ROUTES: readonly Route[] = ROUTE_DATA.map(({ names, ...route }) => ({
  ...route,
  into: route.into as Into,
  name: names[0] as string,
}));

const BY_KEY: ReadonlyMap<string, Route> = new Map(
  ROUTE_DATA.flatMap(({ names }, index) => names.map((name) => [nameKey(name), ROUTES[index] as Route] as const)),
);

export function routes(): readonly Route[] {
  return ROUTES;
}

/** By one of its names, however it is cased or hyphenated; an unknown one is never taken for another. */
export function findRoute(text: string): Route | null {
  return BY_KEY.get(nameKey(text)) ?? null;
}

/** Every name that is read, for proposals. */
export function routeNames(): readonly string[] {
  return [...BY_KEY.keys()];
}
