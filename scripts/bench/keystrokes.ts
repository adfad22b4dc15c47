/** One keystroke, from the text to the findings that an editor shows, in a long note and in a short one. */
import { createNoteService } from '../../src/service/index.ts';
import { type Finding, milliseconds, percentile95, ratio } from './measure.ts';
import { note } from './notes.ts';

const STROKES = 200;
/** Of a display that draws sixty times a second. */
const FRAME = 16;
const URI = 'file:///bench.md';

export function keystrokes(): readonly Finding[] {
  const long = note(1, 1_000_000, 500);
  const short = note(1, 10_000, 5);
  const places = [
    { where: 'inside a block', at: (source: string) => source.indexOf('  show osmolarity', source.length / 2) },
    { where: 'in prose', at: (source: string) => source.indexOf('locked box', source.length / 2) },
  ];
  return places.flatMap(({ where, at }) => {
    const [inLong, inShort] = [strokes(long, at(long)), strokes(short, at(short))];
    return [
      milliseconds(`(c) keystroke ${where}, 1 MB with 500 blocks, 95th percentile`, inLong, FRAME),
      milliseconds(`(c) the same, 10 kB with 5 blocks`, inShort),
      ratio(`(c) long against short, ${where}`, inLong / inShort, { atMost: 3 }),
    ];
  });
}

/** Types a word and takes it away again, letter by letter, and asks for everything that is published after each. */
function strokes(source: string, at: number): number {
  const service = createNoteService();
  const typed = '# typed ';
  const published = (text: string) => {
    const worked = service.work(URI, text);
    return [worked.diagnostics, worked.results];
  };
  published(source);
  const times: number[] = [];
  for (let stroke = 0; stroke < STROKES + 20; stroke += 1) {
    const length = Math.abs((stroke % (2 * typed.length)) - typed.length);
    const text = source.slice(0, at) + typed.slice(0, length) + source.slice(at);
    const start = performance.now();
    published(text);
    if (stroke >= 20) times.push(performance.now() - start);
  }
  return percentile95(times);
}
