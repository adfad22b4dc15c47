/** Where the project lies, and which script was called. */
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The project's folder, with a final slash. */
export const root = fileURLToPath(new URL('../', import.meta.url));

/** Whether the module at `url` is the one Node was started with, and not imported by another. */
export function isMain(url: string): boolean {
  return realpathSync(process.argv[1] ?? '') === fileURLToPath(url);
}
