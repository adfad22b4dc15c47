/** Works out the notes of a closure, each once, and remembers them for as long as nothing they rest on changes. */
import { readNote } from '../../markdown/index.ts';
import { parseBlock } from '../../notation/index.ts';
import { ANEW } from '../memo.ts';
import type { Policy } from '../policy.ts';
import type { Desk } from '../reporter.ts';
import { gatherBlock, scopeOf } from '../scope.ts';
import { workFluids } from '../scope-fluids.ts';
import type { Closure, ClosureNote, Target } from './closure.ts';
import { type Given, givenBy, type NotGiven, type UsedNotes } from './given.ts';

interface Remembered {
  readonly text: string;
  readonly policy: Policy;
  /** What its paths and the formulary gave it, in order. */
  readonly drawnOn: readonly unknown[];
  readonly given: Given;
}

/** Of all notes that draw on one another; it keeps the latest state of each note that is used. */
export class NoteLibrary {
  private readonly notes = new Map<string, Remembered>();

  /** What other notes give to the note that the closure is for. */
  usedIn(closure: Closure, policy: Policy): UsedNotes {
    return new ClosureReader(closure, policy, this.notes).of(closure.at, closure.targets);
  }
}

class ClosureReader {
  /** Worked out in this closure already. */
  private readonly given = new Map<string, Given>();

  constructor(
    private readonly closure: Closure,
    private readonly policy: Policy,
    private readonly notes: Map<string, Remembered>,
  ) {}

  of(at: string, targets: ReadonlyMap<string, Target>): UsedNotes {
    const note = this.closure.notes.get(at)!;
    return {
      of: (path, alone) => {
        const target = targets.get(path) ?? { why: 'none' };
        const fault = faultOf(target, path, alone ? null : note);
        return fault ?? this.read(target);
      },
      formulary: note.seesFormulary ? this.formulary() : [],
    };
  }

  private read(target: Target) {
    return 'why' in target ? target : { given: this.givenAt(target.at), beyond: target.beyond };
  }

  private formulary(): UsedNotes['formulary'] {
    return [...this.closure.formulary].flatMap(([path, target]) =>
      'at' in target ? [{ path, given: this.givenAt(target.at) }] : [],
    );
  }

  /** Ends: circles are cut, and the notes of the formulary see no formulary. */
  private givenAt(at: string): Given {
    const known = this.given.get(at);
    if (known) return known;
    const found = this.closure.notes.get(at)!;
    const used = this.of(at, found.targets);
    const drawnOn = [...found.targets.keys()].flatMap((path) => {
      const drawn = used.of(path, false);
      return [path, 'given' in drawn ? drawn.given : null];
    });
    for (const { path, given } of used.formulary) drawnOn.push(path, given);
    const given = this.remembered(at, found.note.text, drawnOn) ?? work(found.note.text, this.policy, used);
    this.notes.set(at, { text: found.note.text, policy: this.policy, drawnOn, given });
    this.given.set(at, given);
    return given;
  }

  private remembered(at: string, text: string, drawnOn: readonly unknown[]): Given | null {
    const known = this.notes.get(at);
    if (known?.text !== text || known.policy !== this.policy || known.drawnOn.length !== drawnOn.length) return null;
    return known.drawnOn.every((part, index) => part === drawnOn[index]) ? known.given : null;
  }
}

function faultOf(target: Target, path: string, note: ClosureNote | null): NotGiven | null {
  const circle = note?.circles.get(path);
  if (circle) return { circle };
  return 'why' in target ? target : null;
}

/** Its findings stand in that note, not in those that use it. */
function work(text: string, policy: Policy, used: UsedNotes): Given {
  const blocks = readNote(text).blocks.filter(({ mode }) => mode === 'shared');
  const desk: Desk = { faults: [], mentions: [] };
  const gathered = blocks.map((block) => gatherBlock({ block, syntax: parseBlock(block.text) }, desk.faults));
  return givenBy(workFluids(scopeOf(gathered, desk.faults), policy, used, ANEW, desk));
}
