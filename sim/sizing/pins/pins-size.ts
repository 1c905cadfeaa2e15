import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { conflictMargins, type PinConflict, pinConflicts } from './pin-conflicts.ts';
import { goodPins, type PinProposal, proposePins } from './pin-plan.ts';
import { pinUses } from './pin-uses.ts';
import { allocatePwm, type PwmAllocation } from './pwm-timers.ts';
import { givenOf, type WantedPins, wantedOf } from './wanted-pins.ts';
import { type WiringRow, wiringTable } from './wiring-table.ts';

/** Where the wires go, and what is to be said against where they are. */
export interface PinSize {
  wanted: WantedPins;
  proposal: PinProposal;
  conflicts: PinConflict[];
  /** Every wire of the proposed plan; empty without one. */
  wiring: WiringRow[];
  /** Timers of the brakes' servos; left out when there are none. */
  pwm?: PwmAllocation;
  margins: Margin[];
}

/** Pulses a second that a usual servo wants (a pulse of 1-2 ms every 20 ms). */
export const SERVO_HZ = 50;

/** @param isCellMeasured whether the plan keeps a pin for the cell's voltage, which the rig file cannot ask for */
export function sizePins(rig: Rig, isCellMeasured = false): PinSize {
  const wanted: WantedPins = { ...wantedOf(rig), battery: isCellMeasured };
  const proposal = proposePins(rig.board, wanted, givenOf(rig));
  const conflicts = pinConflicts(rig, proposal.plan);
  const size: PinSize = {
    wanted,
    proposal,
    conflicts,
    wiring: proposal.plan ? wiringTable(rig, proposal.plan) : [],
    margins: [...conflictMargins(rig, conflicts), roomMargin(rig, proposal)],
  };
  if (wanted.servos > 0 && proposal.plan) {
    const outputs = proposal.plan.pins
      .filter(({ role }) => role === 'drive')
      .map(({ key, pin }) => ({ what: key, pin, frequencyHz: SERVO_HZ }));
    size.pwm = allocatePwm(rig.board, outputs);
    size.margins.push(timerMargin(size.pwm, outputs.length));
  }
  return size;
}

/** Good ADC1 pins against voltages that need one, as wired now. */
function roomMargin(rig: Rig, proposal: PinProposal): Margin {
  const facts = boardFacts(rig.board);
  const good = goodPins(facts, 'analog');
  const needed = pinUses(rig).filter(({ role }) => role === 'analog').length;
  const about = { group: 'pins' as const, fingers: [] };
  if (!proposal.plan) {
    return {
      ...about,
      isSoft: false,
      what: 'a pin for every wire',
      ratio: 0,
      seen: 'not to be had',
      allowed: proposal.problem.seen,
      cure: proposal.problem.cure,
    };
  }
  return {
    ...about,
    isSoft: true,
    what: 'voltages that need an ADC1 pin of their own',
    ratio: needed > 0 ? good.length / needed : Number.POSITIVE_INFINITY,
    seen: String(needed),
    allowed: `the ${facts.label} has ${good.length} good ones: ${good.join(', ')}`,
    cure: rig.multiplexer
      ? 'put more of the strings on the multiplexer'
      : 'put the strings on a multiplexer of the 74HC4051 type: eight inputs on one ADC1 pin and three select lines',
  };
}

/** Servos that get a timer; the rest has to be helped. */
function timerMargin({ slots, refused }: PwmAllocation, wanted: number): Margin {
  const [first] = refused;
  return {
    group: 'pins',
    fingers: [],
    isSoft: refused.every(({ softwareHelps }) => softwareHelps),
    what: `servos at ${SERVO_HZ} Hz`,
    ratio: slots.length / wanted,
    seen: String(wanted),
    allowed: first ? `timers serve ${slots.length}: ${first.reason}` : `timers serve ${slots.length}`,
    cure: first?.cure ?? 'nothing',
  };
}
