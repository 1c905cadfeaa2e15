import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { type PinPlan, proposePins } from '../../../sim/sizing/pins/pin-plan.ts';
import { givenOf, type WantedPins, type WireKey } from '../../../sim/sizing/pins/wanted-pins.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { anyGiven, anyWanted } from '../../sim/sizing/any-pins.ts';

const RUNS = { numRuns: process.env.TAUTLINE_VERIFY === '1' ? 2000 : 60 };

/** A rig file that is wired after a plan; the cell's pin has no place in it. */
function fileOf(plan: PinPlan, wanted: WantedPins): string {
  const at = (key: WireKey) => plan.pins.find((wire) => wire.key === key)?.pin;
  const list = (name: string, count: number) =>
    Array.from({ length: count }, (_, i) => at(`${name} ${i + 1}` as WireKey)).join(', ');
  const lines = [`board: ${plan.board}`, 'fingers:'];
  for (const name of wanted.fingers) {
    const channel = plan.channels[name];
    lines.push(channel === undefined ? `  ${name}: {pin: ${at(name)}}` : `  ${name}: {channel: ${channel}}`);
  }
  if (plan.hasMultiplexer) {
    const select = [0, 1, 2].map((n) => at(`select ${n}` as WireKey));
    lines.push(`multiplexer: {select: [${select.join(', ')}], signal: ${at('signal')}}`);
  }
  if (wanted.joystick) lines.push(`joystick: {x: ${at('joystick x')}, y: ${at('joystick y')}}`);
  if (wanted.rail) lines.push(`rail: {pin: ${at('rail')}, divider: 50 %}`);
  if (wanted.serialOut) lines.push(`frameLink: {tx: ${at('serial output')}, baud: 230400}`);
  if (wanted.servos > 0) {
    lines.push(
      `brakes: {pins: [${list('servo', wanted.servos)}], stallCurrent: 0.65 A, supply: own, supplyCurrent: 5 A, clutch: 8 N, cutOff: yes}`,
    );
  }
  if (wanted.buttons > 0) lines.push(`buttons: [${list('button', wanted.buttons)}]`);
  return `${lines.join('\n')}\n`;
}

describe('a proposed plan in a rig file', () => {
  it('passes the check of the pins without an error or a warning, and is the plan again', () => {
    const board = fc.constantFrom(...BOARD_IDS);
    let seen = 0;
    fc.assert(
      fc.property(board, anyWanted, fc.option(anyGiven, { nil: undefined }), (id, wanted, given) => {
        const { plan } = proposePins(id, wanted, given);
        if (!plan) return;
        seen++;
        const { rig, warnings } = parseRig(fileOf(plan, wanted), 'rig.yaml');
        expect(warnings.filter(({ seen: words }) => !words.startsWith('board '))).toEqual([]);
        const again = givenOf(rig);
        for (const { key, pin } of plan.pins) if (key !== 'battery') expect(again.pins[key], key).toBe(pin);
        expect(again.channels).toEqual(plan.channels);
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(RUNS.numRuns / 3);
  });
});
