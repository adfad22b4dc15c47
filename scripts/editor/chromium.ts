/** A Chromium to drive: the one named, one that is installed, or the one that a package carries. */
import { access, constants } from 'node:fs/promises';
import { delimiter, isAbsolute, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

export interface Found {
  readonly browser: Browser;
  /** Where the program lies, and its version. */
  readonly description: string;
}

const installed = ['/usr/bin/chromium', 'chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

const quiet = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * Starts the first Chromium that starts: `CHROMIUM_PATH` (then no other is tried), an installed one, the package's.
 * Otherwise the reasons, one for each that was tried.
 */
export async function launchChromium(): Promise<Found | { readonly reasons: readonly string[] }> {
  const reasons: string[] = [];
  for await (const program of candidates()) {
    try {
      const browser = await chromium.launch({
        executablePath: program,
        headless: true,
        chromiumSandbox: false,
        args: quiet,
      });
      return { browser, description: `${program}, version ${browser.version()}` };
    } catch (error) {
      reasons.push(`${program}: ${error instanceof Error ? error.message.split('\n')[0] : error}`);
    }
  }
  return { reasons: reasons.length > 0 ? reasons : ['none is installed'] };
}

async function* candidates(): AsyncGenerator<string> {
  const named = process.env.CHROMIUM_PATH;
  if (named) return yield named;
  const seen = new Set<string>();
  for (const name of installed) {
    const program = await find(name);
    if (program && !seen.has(program)) yield program;
    seen.add(program ?? '');
  }
  const carried = await carriedChromium();
  if (carried) yield carried;
}

async function find(name: string): Promise<string | null> {
  const folders = isAbsolute(name) ? [''] : (process.env.PATH ?? '').split(delimiter);
  for (const folder of folders) {
    const program = folder === '' ? name : join(folder, name);
    if (await isProgram(program)) return program;
  }
  return null;
}

function isProgram(file: string): Promise<boolean> {
  return access(file, constants.X_OK).then(
    () => true,
    () => false,
  );
}

/** The program in the package @sparticuz/chromium, unpacked; it is made for Linux on x64 alone. */
async function carriedChromium(): Promise<string | null> {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  const { default: carried } = await import('@sparticuz/chromium');
  return carried.executablePath().catch(() => null);
}
