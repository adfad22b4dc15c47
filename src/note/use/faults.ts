/** What can be wrong with the notes that a note uses: data only. Paths are told as they are written. */
import type { Refusal } from './refusal.ts';

type Outside = 'absolute' | 'address' | 'above' | 'link' | 'no-workspace';
type TooMuch = 'too-many' | 'too-deep' | 'too-large';

export type UseFault =
  | { readonly code: 'missing-note'; readonly path: string; readonly why: Exclude<Refusal, Outside | TooMuch> }
  | { readonly code: 'outside-workspace'; readonly path: string; readonly why: Outside }
  /** `back`: the paths by which that note leads back to this one; empty where it is this one. */
  | { readonly code: 'circular-use'; readonly path: string; readonly back: readonly string[] }
  /** The note is not read, or not all that it uses. */
  | { readonly code: 'use-over-limit'; readonly path: string; readonly what: TooMuch }
  /** Names that another used note gives as well. */
  | {
      readonly code: 'used-twice';
      readonly path: string;
      readonly clashes: readonly { readonly name: string; readonly other: string }[];
    }
  /** What a name stands for has no results in the note that it is from, or cannot be told: `other` gives it too. */
  | {
      readonly code: 'incomplete-import';
      readonly name: string;
      readonly from: string;
      readonly why: 'no-results' | 'twice' | 'clash';
      readonly other: string | null;
    };
