import { describe, expect, it } from 'vitest';
import { findRoute, routeNames, routes } from '../../src/engine/index.ts';

describe('routes', () => {
  it.each([
    ['peripheral vein', 'peripheral-vein', 'vein', true],
    ['midline', 'peripheral-vein', 'vein', true],
    ['Central Line', 'central-vein', 'vein', false],
    ['PICC', 'central-vein', 'vein', false],
    // By what vein is not said.
    ['IV', 'vein', 'vein', null],
    ['intraosseous needle', 'marrow', 'marrow', null],
    ['mouth', 'mouth', 'gut', null],
    ['nasogastric-tube', 'feeding-tube', 'gut', null],
    ['hypodermoclysis', 'under-the-skin', 'tissue', null],
    ['intramuscular', 'muscle', 'muscle', null],
    ['peritoneal  dialysis', 'peritoneum', 'peritoneum', null],
    ['haemofilter', 'circuit', 'circuit', null],
    ['bladder irrigation', 'bladder', 'bladder', null],
    ['wound irrigation', 'surface', 'surface', null],
  ])('%s is %s', (text, id, into, peripheral) => {
    expect(findRoute(text)).toMatchObject({ id, into, peripheral });
  });

  it.each(['', 'artery', 'veins', 'peripheral', 'central-vein catheter', 'constructor'])(
    'takes %j for none, whatever it resembles',
    (text) => {
      expect(findRoute(text)).toBeNull();
    },
  );

  it('are told by one name each, which reads as that route', () => {
    expect(routes().map(({ name }) => findRoute(name))).toEqual(routes());
    expect(findRoute('cannula')!.name).toBe('peripheral vein');
    expect(new Set(routes().map(({ id }) => id)).size).toBe(routes().length);
  });

  it('are proposed by every name that is read', () => {
    expect(routeNames()).toEqual(expect.arrayContaining(['peripheral vein', 'picc', 'oral', 'topical']));
    expect(routeNames().filter((name) => findRoute(name) === null)).toEqual([]);
    expect(new Set(routeNames().map((name) => findRoute(name)))).toEqual(new Set(routes()));
  });
});
