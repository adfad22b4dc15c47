/** Mixtures for the tests, put together as a binder would put them together. */
import { expect } from 'vitest';
import {
  type Amount,
  amountOf,
  type Contents,
  DEFAULT_REFERENCE,
  Decimal,
  decimal,
  dryVolume,
  findObservable,
  findSolute,
  findUnit,
  type MixStep,
  measure,
  mix,
  ONE,
  ofSolute,
  plus,
  type Quantity,
  type Substance,
  strengthOf,
  water,
} from '../../src/engine/index.ts';

/** `9 g`, `0.9 %`, `2 mmol/mL`. */
export function quantity(text: string): Quantity {
  const [, value, unit] = /^(-?[\d.]+)\s*(\S.*)$/.exec(text) as unknown as [string, string, string];
  return { value: decimal(value), unit: findUnit(unit)! };
}

export function mmol(value: number | string | Decimal): Amount {
  return { in: 'mmol', value: new Decimal(value) };
}

export function solute(name: string): Substance {
  return findSolute(name)!.substance;
}

/** What 1 mL of a solution of that strength holds. */
export function perMl(strength: string, name: string): Contents {
  const reading = strengthOf(quantity(strength), solute(name), null, false);
  if (!reading.ok) throw new Error(`no strength: ${strength} ${name}`);
  return ofSolute(solute(name), reading.perMl, ONE);
}

/** An amount of dry solute, with the volume it adds. */
export function dry(amount: string, name: string): Contents {
  const reading = amountOf(quantity(amount), solute(name), null, false);
  if (!reading.ok) throw new Error(`no amount: ${amount} ${name}`);
  return ofSolute(solute(name), reading.amount, dryVolume(solute(name), reading.amount));
}

export function add(millilitres: number, of: Contents): MixStep {
  return { kind: 'make-up', perMl: of, to: decimal(millilitres) };
}

/** 1 L of a fluid of one or more solutes, each `[strength, name]` that of the finished solution. */
export function litreOf(...parts: readonly (readonly [string, string])[]): Contents {
  const fluid = parts.map(([strength, name]) => perMl(strength, name)).reduce(plus);
  return mix([add(1000, { ...fluid, volume: ONE })]).contents;
}

/** That much dry solute, made up with water. */
export function madeUp(amount: string, name: string, millilitres = 1000): Contents {
  const steps: MixStep[] = [{ kind: 'add', contents: dry(amount, name) }, add(millilitres, water(ONE))];
  return mix(steps).contents;
}

export function value(contents: Contents, observable: string, unit: string): Decimal {
  const measured = measure(contents, findObservable(observable)!, findUnit(unit)!, DEFAULT_REFERENCE);
  if (!measured.ok) throw new Error(`not measured: ${observable} ${unit}: ${measured.problem}`);
  return measured.value;
}

/** Checks a result against a printed figure, to within half a unit of the last place printed. */
export function expectPrinted(contents: Contents, observable: string, printed: string): void {
  const { value: figure, unit } = quantity(printed);
  const found = value(contents, observable, unit.symbol);
  const places = /\.(\d+)/.exec(printed)?.[1]?.length ?? 0;
  expect(found.toDecimalPlaces(places).toFixed(places), `${observable} in ${unit.symbol}`).toBe(figure.toFixed(places));
}

/** Checks a result against a figure, to within a stated distance. */
export function expectNear(contents: Contents, observable: string, figure: string, within: string): void {
  const { value: target, unit } = quantity(figure);
  const off = value(contents, observable, unit.symbol).minus(target).abs();
  expect(off.lte(decimal(within)), `${observable}: off ${figure} by ${off.toFixed(4)}`).toBe(true);
}
