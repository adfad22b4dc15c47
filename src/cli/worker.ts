/** The other end of `Crew`: checks the notes that come, in order. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Asked } from './checked-note.ts';
import { NoteChecker } from './note-checker.ts';
import type { NoteFile } from './notes.ts';

export function work(): void {
  const port = parentPort!;
  const checker = new NoteChecker(workerData as Asked);
  let before: Promise<unknown> = Promise.resolve();
  port.on('message', (note: NoteFile) => {
    before = before.then(async () => port.postMessage(await checker.check(note)));
  });
}
