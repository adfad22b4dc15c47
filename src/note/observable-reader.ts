/** Finds the observable among the words of a claim, target, show or comparison. */
import { findObservable, fixedObservables, nearNames, type Observable, type SubjectKind } from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { Span, SubjectNode, Words } from '../notation/ast.ts';
import { keyOf } from '../notation/index.ts';
import type { Surroundings } from './fluids.ts';
import { type Reporter, textOf } from './reporter.ts';

export class ObservableReader {
  constructor(
    private readonly block: Block,
    private readonly report: Reporter,
    private readonly around: Pick<Surroundings, 'own' | 'policy'>,
  ) {}

  /** Splits words into a subject and the longest run before the value that is an observable. */
  split(node: SubjectNode): { observable: Observable; rest: Span | null } | null {
    const text = this.block.text;
    const last = node.items[node.items.length - 1]!;
    if ('kind' in last) {
      this.report.at(last.span, { code: 'unknown-observable', found: textOf(last), near: [] });
      return null;
    }
    for (const start of wordStarts(text, last.span)) {
      const observable = this.find(keyOf(text.slice(start, last.span.end)));
      if (!observable) continue;
      const rest = start > node.span.start ? { start: node.span.start, end: start } : null;
      return { observable, rest };
    }
    for (const start of wordStarts(text, last.span)) {
      const span = { start, end: last.span.end };
      if (this.around.own.withheld(keyOf(text.slice(start, span.end)), span, this.report)) return null;
    }
    this.observable(last);
    return null;
  }

  observable(words: Words): Observable | null {
    const observable = this.find(words.key);
    if (observable || this.around.own.withheld(words.key, words.span, this.report)) return observable;
    const known = fixedObservables().map(({ key }) => key);
    this.report.at(words.span, {
      code: 'unknown-observable',
      found: words.text,
      near: nearNames(words.key, known).filter((name) => findObservable(keyOf(name))),
    });
    return null;
  }

  private find(key: string): Observable | null {
    return this.around.own.observable(key) ?? findObservable(key, this.around.policy.pharmacopoeia);
  }

  /** Whether it can be asked of such a thing; if not, that is said. */
  suits(
    observable: Observable,
    span: Span,
    { name, is }: { readonly name: string; readonly is: SubjectKind },
  ): boolean {
    if (observable.of.includes(is)) return true;
    this.report.at(span, { code: 'not-of-this', observable: observable.name, of: observable.of, subject: name, is });
    return false;
  }
}

/** Offsets at which words begin inside a span, first to last. */
export function wordStarts(text: string, span: Span): number[] {
  const starts: number[] = [];
  for (let at = span.start; at < span.end; at++) {
    const before = at === span.start || /\s/.test(text[at - 1]!);
    if (before && !/\s/.test(text[at]!)) starts.push(at);
  }
  return starts;
}
