/** Notes to measure with: the same text at every run, of a district hospital that mixes what it used to buy mixed. */
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const PROSE = [
  'The store holds no premixed bags of potassium this week, so each ward makes up its own and two people sign for it.',
  'Gastric losses are measured every four hours and replaced volume for volume; what was replaced stands on the chart.',
  'Write the volume of the additive beside the volume of the bag: a litre that took three ampoules is no longer a litre.',
  'The pharmacy sends concentrates in a locked box. What is left over at the end of a shift goes back and is counted.',
  'A bag without a label is thrown away, whatever it is thought to hold, and the loss is written down with the time.',
];

/** A block with a mixture, claims that hold, a patient and an order; its names end in `name`, so that they are its own. */
export function block(name: string, serial: number): string {
  const potassium = 10 + (serial % 3) * 5;
  return [
    '```infusion',
    `mixture gastric-${name} "Gastric replacement ${name}"`,
    '  1 L sodium chloride 0.9%',
    `  ${potassium} mL potassium chloride 2 mmol/mL`,
    `  claim volume ${1000 + potassium} mL`,
    '  show osmolarity, free water',
    `patient adult-${name}`,
    `  weight ${60 + (serial % 20)} kg`,
    '  serum sodium 138 mmol/L',
    `give gastric-${name} at 60 mL/h for 12 h to adult-${name} by peripheral vein`,
    '```',
  ].join('\n');
}

/** `bytes` of prose from a numbered place on. */
function prose(serial: number, bytes: number): string {
  let text = '';
  for (let index = serial; text.length < bytes; index += 1) text += `${PROSE[index % PROSE.length]}\n\n`;
  return text.slice(0, bytes).trimEnd();
}

/** A note of about that many bytes with that many blocks, spread over it. */
export function note(serial: number, bytes: number, blocks: number): string {
  const written = Array.from({ length: blocks }, (_, index) => block(`${serial}-${index}`, serial + index));
  const held = written.reduce((sum, text) => sum + text.length, 0);
  const between = Math.max(0, Math.floor((bytes - held) / (blocks + 1)) - 24);
  const parts = written.map((text, index) => `## Part ${index}\n\n${prose(serial + index, between)}\n\n${text}`);
  return `# Note ${serial}\n\n${[...parts, prose(serial, between)].join('\n\n')}\n`;
}

/** Writes so many notes into a new folder, hands it over, and takes it away again. */
export async function withFolder<T>(
  count: number,
  text: (serial: number) => string,
  use: (folder: string) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'meniscus-bench-'));
  try {
    for (let serial = 0; serial < count; serial += 1) {
      const file = join(folder, `ward-${serial % 20}`, `note-${serial}.md`);
      await mkdir(dirname(file), { recursive: true });
      await writeFile(file, text(serial));
    }
    return await use(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
