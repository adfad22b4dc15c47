/** One keystroke, from the change that an editor sends to the findings and results that it shows, in a long note and in a short one. */
import { PositionEncodingKind } from 'vscode-languageserver';
import { DEFAULT_POLICY } from '../../src/note/index.ts';
import { OpenDocument } from '../../src/server/open-document.ts';
import { toHint, toProtocol } from '../../src/server/shown.ts';
import { NotesInUse } from '../../src/server/used-notes.ts';
import { createNoteService } from '../../src/service/index.ts';
import { type Finding, milliseconds, percentile95, ratio } from './measure.ts';
import { note } from './notes.ts';

const STROKES = 200;
const WARM_UP = 40;
/** Of a display that draws sixty times a second. */
const FRAME = 16;
const URI = 'file:///bench.md';
const CLIENT = { relatedInformation: true, docsBase: 'file:///docs' };
const NO_POLICY = { policy: DEFAULT_POLICY, uri: null };

export async function keystrokes(): Promise<readonly Finding[]> {
  const long = note(1, 1_000_000, 500);
  const short = note(1, 10_000, 5);
  const places = [
    { where: 'inside a block', at: (source: string) => source.indexOf('  show osmolarity', source.length / 2) },
    { where: 'in prose', at: (source: string) => source.indexOf('locked box', source.length / 2) },
  ];
  const found: Finding[] = [];
  for (const { where, at } of places) {
    const [inLong, inShort] = [await strokes(long, at(long)), await strokes(short, at(short))];
    found.push(
      milliseconds(`(c) keystroke ${where}, 1 MB with 500 blocks, 95th percentile`, inLong, FRAME),
      milliseconds(`(c) the same, 10 kB with 5 blocks`, inShort),
      ratio(`(c) long against short, ${where}`, inLong / inShort, { atMost: 3 }),
    );
  }
  return found;
}

/** Types a word and takes it away again, letter by letter, as the server does it: without its pause and the connection. */
async function strokes(source: string, at: number): Promise<number> {
  const service = createNoteService();
  const used = new NotesInUse({ read: async () => ({ why: 'none' }) }, (uri) => uri, service);
  const document = new OpenDocument(URI, 'markdown', 0, source, PositionEncodingKind.UTF16);
  const shown = async () => {
    const closure = await used.of(document, NO_POLICY);
    const worked = service.work(URI, document.getText(), DEFAULT_POLICY, closure);
    const findings = worked.diagnostics().map((finding) => toProtocol(finding, document, CLIENT));
    const results = worked.results({ start: 0, end: document.getText().length });
    return [findings, results.map((result) => toHint(result, document))];
  };
  const typed = '# typed ';
  const start = document.positionAt(at);
  let before = 0;
  await shown();
  const times: number[] = [];
  for (let stroke = 0; stroke < STROKES + WARM_UP; stroke += 1) {
    const length = Math.abs(((stroke + 1) % (2 * typed.length)) - typed.length);
    const from = { line: start.line, character: start.character + Math.min(before, length) };
    const to = { line: start.line, character: start.character + before };
    const change = { range: { start: from, end: to }, text: typed.slice(before, length) };
    before = length;
    const begun = performance.now();
    document.update([change], stroke + 1);
    await shown();
    if (stroke >= WARM_UP) times.push(performance.now() - begun);
  }
  return percentile95(times);
}
