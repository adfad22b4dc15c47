/** Reads every file below the current folder and does nothing with it: what a check is held against. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

for (const entry of readdirSync('.', { recursive: true, withFileTypes: true })) {
  if (entry.isFile()) readFileSync(join(entry.parentPath, entry.name), 'utf8');
}
