/** The words that local policy prefers on the screen. Keys of reports never change. */
import type { Wording } from '../checks/index.ts';
import type { Policy } from '../note/index.ts';

type Terms = Policy['terms'];

const SUGAR = /\b(?:dextrose|glucose)\b/g;
/** A sugar whose crystal form is named, or that a liquid holds; what stands between quotation marks is what the note says. */
const FORM_OR_QUOTED =
  /‘[^’]*’|\b(?:dextrose|glucose)(?= (?:monohydrate|anhydrous)\b)|(?<=\bits )(?:dextrose|glucose)\b/gi;

/**
 * A name from the data in the preferred word. Only for the molecule and for forms named outright: by itself `dextrose 5 %`
 * weighs the monohydrate where `glucose 5 %` weighs the anhydrous form, so the words of a note and of labels stay.
 */
export function nameInTerms(name: string, { sugar }: Terms): string {
  return sugar ? name.replace(SUGAR, sugar) : name;
}

/** A sentence in which the dissolved sugar and its forms are called by the preferred word. */
export function sentenceInTerms(sentence: string, { sugar }: Terms): string {
  if (!sugar) return sentence;
  return sentence.replace(FORM_OR_QUOTED, (found) => {
    if (found.startsWith('‘')) return found;
    return /^[A-Z]/.test(found) ? sugar.charAt(0).toUpperCase() + sugar.slice(1) : sugar;
  });
}

export function wordingInTerms({ read, why, mend, ...rest }: Wording, terms: Terms): Wording {
  const told = (sentence: string) => sentenceInTerms(sentence, terms);
  return { read: told(read), why: told(why), mend: told(mend), ...rest };
}
