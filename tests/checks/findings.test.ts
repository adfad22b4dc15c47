/** Findings that a note accepts with a reason, and acceptances of what is not there. */
import { describe, expect, it } from 'vitest';
import { findingsOf } from '../../src/checks/findings.ts';
import { readNote } from '../../src/markdown/index.ts';
import { workNote } from '../../src/note/index.ts';
import { fenced } from '../annotated.ts';

function judged(source: string) {
  const { open, accepted } = findingsOf(workNote(readNote(source)));
  return {
    open: open.map(({ code, at }) => `${code}: ${source.slice(at.start, at.end)}`),
    accepted: accepted.map(({ finding, reason }) => `${finding.code}: ${reason}`),
    messages: open.map(({ wording }) => `${wording.why} ${wording.mend}`),
  };
}
const block = (text: string) => judged(fenced(text));

const DRIP = `mixture drip
  1 L sodium chloride 0.45%
  3 x 50 mL sodium bicarbonate 8.4%`;
const ACCEPT = '  accept volume-added because "counted with 1150 mL"';

describe('an acceptance', () => {
  it('directly below a line is of that line’s finding', () => {
    expect(block(DRIP).open).toEqual(['volume-added: 50 mL']);
    expect(block(`${DRIP}\n${ACCEPT}`)).toMatchObject({ open: [], accepted: ['volume-added: counted with 1150 mL'] });
  });

  it('below the header is of all the entity', () => {
    const whole = DRIP.replace('drip\n', `drip\n${ACCEPT}\n`);
    expect(block(whole)).toMatchObject({ open: [], accepted: ['volume-added: counted with 1150 mL'] });
  });

  it('of another line is of nothing', () => {
    const misplaced = DRIP.replace('0.45%\n', `0.45%\n${ACCEPT}\n`);
    expect(block(misplaced)).toMatchObject({
      open: ['volume-added: 50 mL', 'unused-accept: volume-added'].sort(),
      accepted: [],
    });
  });

  it('does not reach into the entity that follows, or another block', () => {
    const next = `mixture first\n${ACCEPT}\n  1 L sodium chloride 0.9%\n${DRIP}`;
    expect(block(next).open.toSorted()).toEqual(['unused-accept: volume-added', 'volume-added: 50 mL']);
    const apart = `${fenced(`mixture first\n${ACCEPT}\n  1 L sodium chloride 0.9%`)}\n${fenced(DRIP)}`;
    expect(judged(apart).open.toSorted()).toEqual(['unused-accept: volume-added', 'volume-added: 50 mL']);
  });

  it('takes information as well as warnings', () => {
    const { open, accepted } = block(
      'mixture bag\n  1 L sodium chloride 0.45%\n  claim sodium 76 mmol/L\n  accept nominal-claim because "as the label prints it"',
    );
    expect(open).toEqual([]);
    expect(accepted).toEqual(['nominal-claim: as the label prints it']);
  });

  it('does not take an error, and says so', () => {
    const { open, accepted, messages } = block(
      'mixture bag\n  1 L sodium chloride 0.45%\n  claim sodium 154 mmol/L\n  accept claim-mismatch because "so it says"',
    );
    expect(accepted).toEqual([]);
    expect(open).toEqual(['claim-mismatch: 154 mmol/L', 'unused-accept: claim-mismatch']);
    expect(messages[1]).toMatch(/mended rather than accepted/);
  });

  it('of a code that is none offers the nearest, wherever it stands', () => {
    const { open, messages } = block(`${DRIP}\n  accept volume-aded because "counted"`);
    expect(open.toSorted()).toEqual(['unused-accept: volume-aded', 'volume-added: 50 mL']);
    expect(messages.join()).toMatch(/volume-added/);
    expect(block('mixture bag\n  1 L sodum chloride 0.9%\n  accept nonsense because "counted"').open).toEqual([
      'unknown-name: sodum chloride',
      'unused-accept: nonsense',
    ]);
  });

  it('of what is not found is left over', () => {
    const { open, messages } = block(`mixture bag\n  1 L sodium chloride 0.9%\n${ACCEPT}`);
    expect(open).toEqual(['unused-accept: volume-added']);
    expect(messages[0]).toMatch(/Nothing of that name is found/);
  });

  it('without a reason accepts nothing, and only that is said', () => {
    expect(block(`${DRIP}\n  accept volume-added`).open.toSorted()).toEqual([
      'accept-without-reason: volume-added',
      'volume-added: 50 mL',
    ]);
    expect(block(`${DRIP}\n  accept volume-added because " "`).accepted).toEqual([]);
  });

  it('in what is withheld waits until that is mended', () => {
    expect(block(`${DRIP}\n${ACCEPT}\n  1 L sodum chloride 0.9%`).open).toEqual(['unknown-name: sodum chloride']);
    const madeOf = `mixture bad\n  1 L sodum chloride 0.9%\nmixture drip\n  1 L bad\n  50 mL sodium bicarbonate 8.4%\n${ACCEPT}`;
    expect(block(madeOf).open).toEqual(['unknown-name: sodum chloride']);
    const order = 'give 1 L sodum chloride 3% over 8 h by vein\n  accept hypertonic-peripheral because "a midline"';
    expect(block(order).open).toEqual(['unknown-name: sodum chloride']);
    const unread = 'give 1 L sodium chloride nonsense 8\n  accept hypertonic-peripheral because "a midline"';
    expect(block(unread).open).toHaveLength(1);
    const patient = 'patient adult\n  weight 70 mL\n  weight 700 kg\n  accept unusual-patient-value because "true"';
    expect(block(patient).open.filter((one) => one.startsWith('unused'))).toEqual([]);
  });

  it('of a patient and of an order', () => {
    expect(
      block('patient adult\n  weight 410 kg\n  accept unusual-patient-value because "measured twice"'),
    ).toMatchObject({ open: [], accepted: ['unusual-patient-value: measured twice'] });
    expect(
      block(
        'give 500 mL dextrose 20% over 8 h by peripheral vein\n  accept hypertonic-peripheral because "no other vein"',
      ).accepted,
    ).toContain('hypertonic-peripheral: no other vein');
  });

  it('twice of one finding: the first reason stands, and neither is left over', () => {
    expect(block(`${DRIP}\n${ACCEPT}\n  accept volume-added because "again"`)).toMatchObject({
      open: [],
      accepted: ['volume-added: counted with 1150 mL'],
    });
  });

  it('of several findings takes all of them', () => {
    const two = `mixture drip\n${ACCEPT}\n  1 L sodium chloride 0.45%\n  50 mL sodium bicarbonate 8.4%\n  10 mL potassium chloride 2 mmol/mL`;
    const { open, accepted } = block(two);
    expect(open.filter((one) => one.startsWith('volume-added') || one.startsWith('unused'))).toEqual([]);
    expect(accepted.length).toBeGreaterThanOrEqual(1);
  });

  it.each([
    ['a list', (text: string) => `- dose\n\n${text.replace(/^(?=.)/gm, '  ')}`],
    ['a quotation', (text: string) => text.replace(/^/gm, '> ')],
    ['a list in a quotation', (text: string) => `- dose\n\n${text.replace(/^(?=.)/gm, '  ')}`.replace(/^/gm, '> ')],
    ['lines that end in CR LF', (text: string) => text.replaceAll('\n', '\r\n')],
  ])('in %s', (_, wrapped) => {
    expect(judged(wrapped(fenced(`${DRIP}\n${ACCEPT}`)))).toMatchObject({
      open: [],
      accepted: ['volume-added: counted with 1150 mL'],
    });
    const whole = DRIP.replace('drip\n', `drip\n${ACCEPT}\n`);
    expect(judged(wrapped(fenced(whole))).open).toEqual([]);
  });

  it('outside everything accepts nothing', () => {
    expect(block('accept volume-added because "counted"').accepted).toEqual([]);
    expect(block('accept volume-added because "counted"').open).toHaveLength(1);
  });
});
