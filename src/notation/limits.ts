/** What one block may hold at most. Over a bound the reader says so and goes on. */
export const LIMITS = {
  /** UTF-16 units in a line, white space at its ends left out. */
  lineLength: 2_000,
  /** Words, numbers, units and titles in a line. */
  wordsInLine: 64,
  /** Characters in a name given by the author. */
  nameLength: 64,
  /** Digits in one number. */
  digits: 40,
  /** Largest absolute value of a number, in the unit it is written in. */
  magnitude: 1e12,
  lines: 20_000,
  /** Of all blocks of a note together: what is worked out of a line stays in memory while the note is looked at. */
  linesInNote: 40_000,
  /** Figures that one `what if` takes in turn. */
  alternatives: 8,
} as const;
