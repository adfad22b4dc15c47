/**
 * Characters that are not seen and change what is: soft hyphen, direction marks (Unicode Standard Annex 9, section 2),
 * zero-width spaces, invisible operators, annotation marks and tags, as a part of a regular expression's class under the flag
 * `u`. The joiners stay, which Indic and Persian words and emoji are written with.
 */
export const DECEIVING =
  '\\u00AD\\u061C\\u180E\\u200B\\u200E\\u200F\\u202A-\\u202E\\u2060-\\u206F\\uFEFF\\uFFF9-\\uFFFB\\u{E0000}-\\u{E007F}';
