/** Puts faults and mentions where they stand in the note. One for each block; all add to the same lists. */
import type { AmountFault, Overload } from '../engine/index.ts';
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type { QuantityNode, Span } from '../notation/ast.ts';
import { halfWidth } from './choices.ts';
import type { Located, NoteFault, Wanted } from './faults.ts';
import type { BoundSolute, Unbound } from './fluids.ts';
import type { Mention } from './model.ts';

/** The lists of one note. */
export interface Desk {
  readonly faults: Located[];
  readonly mentions: Mention[];
}

export class Reporter {
  constructor(
    readonly block: Block,
    private readonly desk: Desk,
    /** Where everything is said to stand, when what is read is not the note's own text but what its words mean. */
    private readonly pin: Span | null = null,
  ) {}

  pinned(span: Span): Reporter {
    return new Reporter(this.block, this.desk, span);
  }

  place(span: Span): SourceSpan {
    return this.block.place(this.pin ?? span);
  }

  mention(span: Span, of: Mention['of']): void {
    if (!this.pin) this.desk.mentions.push({ at: this.place(span), of });
  }

  /** Reports a fault and gives the failure to return. */
  at(span: Span, fault: Located['fault']): Unbound {
    const cause = this.place(span);
    this.desk.faults.push({ at: cause, fault });
    return { ok: false, cause };
  }

  /** A quantity that does not measure what is wanted of it. */
  dimension(quantity: QuantityNode, wanted: Wanted, of: string, fits: readonly string[]): Unbound {
    return this.at(quantity.span, {
      code: 'wrong-dimension',
      wanted,
      of,
      found: textOf(quantity),
      got: quantity.unit.unit.dimension,
      fits,
    });
  }

  /** An amount of a solute that the engine could not read. */
  amount(quantity: QuantityNode, solute: BoundSolute, fault: AmountFault, wanted: Wanted): Unbound {
    const { substance, ion } = solute;
    switch (fault.problem) {
      case 'elemental-or-salt':
        return this.at(quantity.span, {
          code: 'elemental-or-salt',
          found: textOf(quantity),
          ion: ion?.name ?? substance.name,
          substance: solute.words.text,
          per: wanted === 'strength' ? 'mmol/L' : 'mmol',
          asSalt: fault.asSalt,
          asElement: fault.asElement,
        });
      case 'ion-not-in-substance':
        return this.at(quantity.span, {
          code: 'ion-not-in-substance',
          ion: fault.ion.name,
          substance: substance.name,
          gives: substance.gives.map(({ particle }) => particle.name),
        });
      case 'equivalents-of-neutral':
        return this.dimension(
          quantity,
          wanted,
          solute.words.text,
          wanted === 'strength' ? ['mmol/L', 'g/L'] : ['mmol', 'g'],
        );
      case 'equivalents-of-varying-charge':
        return this.at(quantity.span, { code: 'varying-charge', found: textOf(quantity), ion: fault.ion.name });
      case 'no-molar-mass':
        return this.at(quantity.span, { code: 'no-molar-mass', found: textOf(quantity), of: fault.of });
      case 'no-such-solution':
        return this.at(quantity.span, {
          code: 'no-such-solution',
          found: textOf(quantity),
          of: fault.substance.name,
          strengths: fault.strengths,
        });
      case 'wrong-dimension':
        return this.dimension(quantity, wanted, solute.words.text, fault.fits);
    }
  }

  /** A tolerance that measures something else than the quantity it stands behind. */
  tolerance(quantity: QuantityNode): void {
    const { tolerance } = quantity;
    if (!tolerance || halfWidth(quantity)) return;
    this.at(tolerance.span, {
      code: 'wrong-dimension',
      wanted: 'tolerance',
      of: textOf(quantity),
      found: textOf(tolerance),
      got: tolerance.unit.unit.dimension,
      fits: [quantity.unit.unit.symbol, '%'],
    });
  }
}

/** More than dissolves, or more than leaves room for water. */
export function overloadFault(overload: Overload): NoteFault {
  return overload.reason === 'more-solute-than-volume'
    ? { code: 'no-water', substance: overload.substance.family, limit: overload.limit }
    : { code: 'impossible-concentration', overload };
}

/** As written, with one space before the unit. */
export function textOf(quantity: { number: { text: string }; unit: { text: string } }): string {
  return `${quantity.number.text} ${quantity.unit.text}`;
}
