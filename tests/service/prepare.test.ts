/** A long note that is worked out for the first time lets others have their turn. No source: our own design. */
import { expect, it } from 'vitest';
import { DEFAULT_POLICY } from '../../src/note/index.ts';
import { createNoteService } from '../../src/service/index.ts';

/** Each block is made from the one behind it, so that no beginning of the note comes to what the whole does. */
const NOTE = Array.from(
  { length: 150 },
  (_, number) =>
    `${'Words before it. '.repeat(60)}\n\n\`\`\`infusion\nmixture m${number}\n  1 L ${number < 149 ? `m${number + 1}` : 'sodium chloride 0.9%'}\n  claim sodium 154 mmol/L\n\`\`\`\n\n`,
).join('');

it('has its turns, and comes to the same', async () => {
  const service = createNoteService();
  let turns = 0;
  const done = await service.prepare('a', NOTE, DEFAULT_POLICY, null, async () => {
    turns += 1;
    return true;
  });
  expect(done).toBe(true);
  expect(turns).toBe(Math.floor((NOTE.length - 1) / 50_000));
  const span = { start: 0, end: NOTE.length };
  const [prepared, alone] = [service, createNoteService()].map((of) => of.work('a', NOTE));
  expect(prepared!.results(span)).toEqual(alone!.results(span));
  expect(prepared!.results(span).length).toBe(150);
  expect(prepared!.diagnostics()).toEqual(alone!.diagnostics());
});

it('ends when it is told to', async () => {
  let turns = 0;
  const goOn = async () => {
    turns += 1;
    return turns < 2;
  };
  expect(await createNoteService().prepare('a', NOTE, DEFAULT_POLICY, null, goOn)).toBe(false);
  expect(turns).toBe(2);
});

it('takes no turn for a short note, nor for one that is known', async () => {
  const never = () => Promise.reject(new Error('no turn is taken'));
  const service = createNoteService();
  expect(await service.prepare('a', NOTE.slice(0, 40_000), DEFAULT_POLICY, null, never)).toBe(true);
  service.work('b', NOTE);
  expect(await service.prepare('b', `${NOTE}more`, DEFAULT_POLICY, null, never)).toBe(true);
});
