/** How orders are written in the prose of a note: only what is hardly ever anything else is taken for one. */
import type { NoteText, Prose } from '../markdown/note-text.ts';
import { keyOf, normalise, readRatio } from '../notation/index.ts';
import type { Abbreviation, Located } from './faults.ts';
import { readingsOfSymbol } from './mistaken-symbols.ts';
import { figuresIn, isOrdered, safeNumber, safeUnit, type WrittenFigure, withoutTrailingZero } from './safe-figures.ts';

type Unplaced<F> = F extends unknown ? Omit<F, 'found' | 'span'> : never;

/** What is said of a place; the place and its words are added once it is known where the line stands. */
type Wording = Unplaced<
  Extract<
    Located['fault'],
    {
      code:
        | 'trailing-zero'
        | 'naked-decimal'
        | 'number-run-into-unit'
        | 'unsafe-abbreviation'
        | 'ratio-strength'
        | 'ambiguous-name';
    }
  >
>;

/** Offsets into what is looked at: a line, or a stretch of them. */
interface Misread {
  readonly start: number;
  readonly end: number;
  readonly fault: Wording;
}

/** Looks at each line of the note's prose; at those that stay the same, once. */
export function proseWording(note: NoteText): readonly Located[] {
  const { source } = note;
  const located: Located[] = [];
  for (const prose of note.prose()) {
    for (const misread of misreadsOf(prose, source)) {
      const at = { start: prose.start + misread.start, end: prose.start + misread.end };
      const found = source.slice(at.start, at.end);
      located.push({ at, fault: { ...misread.fault, found, span: at } as Located['fault'] });
    }
  }
  return located;
}

const KNOWN = new WeakMap<Prose['lines'], readonly Misread[]>();

function misreadsOf({ start, lines }: Prose, source: string): readonly Misread[] {
  const known = KNOWN.get(lines);
  if (known) return known;
  const found = lines.flatMap((line) => {
    const text = normalise(source.slice(start + line.start, start + line.end));
    return Array.from(misreadIn(text), ({ start: from, end, fault }) => ({
      start: line.start + from,
      end: line.start + end,
      fault,
    }));
  });
  KNOWN.set(lines, found);
  return found;
}

function* misreadIn(line: string): Generator<Misread> {
  for (const figure of figuresIn(line)) {
    yield* percentBeforeSymbol(line, figure);
    if (isOrdered(figure.unit)) yield* aroundAmount(line, figure);
  }
  yield* ratios(line);
}

const unsafe = (kind: Abbreviation, safe: string): Wording => ({
  code: 'unsafe-abbreviation',
  kind,
  safe,
});

/** The amount itself, what stands right before it and what right behind. */
function* aroundAmount(line: string, figure: WrittenFigure): Generator<Misread> {
  const { start, number, space, unit, end } = figure;
  const afterNumber = start + number.length;
  yield* signBefore(line, start, afterNumber);
  const shorter = withoutTrailingZero(number);
  if (shorter !== null) {
    yield { start, end: afterNumber, fault: { code: 'trailing-zero', safe: shorter } };
  } else if (number.startsWith('.')) {
    yield { start, end: afterNumber, fault: { code: 'naked-decimal', safe: `0${number}` } };
  }
  const safe = safeUnit(unit);
  // 10 mL. of: the stop of a sentence is followed by a capital letter or by nothing.
  const stop = /^\. [\p{Ll}\d]/u.test(line.slice(end, end + 3)) ? 1 : 0;
  if (space === '') {
    yield { start, end, fault: { code: 'number-run-into-unit', safe: `${safeNumber(number)} ${safe?.safe ?? unit}` } };
  } else if (safe || stop > 0) {
    const fault = unsafe(safe?.kind ?? 'stop', safe?.safe ?? unit);
    yield { start: end - unit.length, end: end + stop, fault };
  }
  yield* symbolBehind(line, end);
  yield* intervalBehind(line, end);
}

const SIGNS: Readonly<Record<string, string>> = { '@': 'at', '>': 'greater than', '<': 'less than' };

/** A sign right at its number is taken with it, so that a space can come between. */
function* signBefore(line: string, start: number, afterNumber: number): Generator<Misread> {
  const [written, sign, space] = /(?<=^|[\s(])([@<>])( ?)$/.exec(line.slice(Math.max(0, start - 3), start)) ?? [];
  if (written === undefined) return;
  const at = start - written.length;
  const words = SIGNS[sign!]!;
  if (space) yield { start: at, end: at + 1, fault: unsafe('sign', words) };
  else yield { start: at, end: afterNumber, fault: unsafe('sign', `${words} ${line.slice(start, afterNumber)}`) };
}

const SYMBOLS: Readonly<Record<string, string>> = {
  NaCl: 'sodium chloride',
  KCl: 'potassium chloride',
  HCl: 'hydrochloric acid',
  MgSO4: 'magnesium sulfate',
  NaHCO3: 'sodium bicarbonate',
  CaCl2: 'calcium chloride',
  MgCl2: 'magnesium chloride',
};
const SYMBOL = /^(?: of)? (NaCl|KCl|HCl|MgSO4|NaHCO3|CaCl2|MgCl2|MSO4|MS)(?![\p{L}\p{N}-])/u;

function* symbolBehind(line: string, end: number): Generator<Misread> {
  const [written, symbol] = SYMBOL.exec(line.slice(end, end + 16)) ?? [];
  if (written === undefined) return;
  const safe = SYMBOLS[symbol!];
  yield {
    start: end + written.length - symbol!.length,
    end: end + written.length,
    fault: safe ? unsafe('symbol', safe) : { code: 'ambiguous-name', readings: readingsOfSymbol(keyOf(symbol!)) ?? [] },
  };
}

/** `0.9% NaCl`. */
function* percentBeforeSymbol(line: string, { unit, end }: WrittenFigure): Generator<Misread> {
  if (unit === '%') yield* symbolBehind(line, end);
}

/** `40 mg QD`, `40 mg furosemide q.d.` has its own words between and is left alone. */
function* intervalBehind(line: string, end: number): Generator<Misread> {
  const [written, interval] =
    /^ (q\.?d\.?|Q\.?D\.?|q\.?o\.?d\.?|Q\.?O\.?D\.?)(?![\p{L}\p{N}])/u.exec(line.slice(end, end + 9)) ?? [];
  if (written === undefined) return;
  const safe = /o/i.test(interval!) ? 'every other day' : 'daily';
  yield { start: end + 1, end: end + written.length, fault: unsafe('daily', safe) };
}

/** Behind a word, and with a thousand or more below: `adrenaline 1:1000`. Titres, dilutions and scales are none. */
function* ratios(line: string): Generator<Misread> {
  for (const { index } of line.matchAll(/(?<=\p{L}{2} )1:[125]/gu)) {
    const ratio = readRatio(line.slice(index));
    const volume = ratio?.text.slice(2).replace(/[ ,]/g, '') ?? '';
    if (!ratio?.safe || !/^[125]0{3,5}$|^[1-9]00000$/.test(volume)) continue;
    if (
      /(?:titre|titer|dilution|dilute|diluted|scale|ratio|of)s? $/i.test(line.slice(Math.max(0, index - 12), index))
    ) {
      continue;
    }
    yield {
      start: index,
      end: index + ratio.text.length,
      fault: { code: 'ratio-strength', safe: ratio.safe },
    };
  }
}
