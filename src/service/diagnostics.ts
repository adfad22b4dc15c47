/** The findings of a worked note, as the editor and the reports take them. */
import { findingOf, messageOf } from '../checks/index.ts';
import type { WorkedNoteModel } from '../note/index.ts';
import type { Diagnostic } from './types.ts';

export function diagnosticsOf(model: WorkedNoteModel): readonly Diagnostic[] {
  return model.faults.map((located) => {
    const { code, severity, at, wording, other } = findingOf(located);
    const { read, why, mend, source } = wording;
    return {
      code,
      severity,
      span: at,
      message: messageOf(wording),
      parts: { read, why, mend, source: source ?? null },
      related: other ? [{ span: other.at, message: other.words }] : [],
    };
  });
}
