import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { BoardFacts } from '../../../firmware/boards/facts.ts';
import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { goodPins, type PinPlan } from './pin-plan.ts';
import { type ConflictKind, kindOf, reasonOf } from './pin-reasons.ts';
import { freePin, pinFault } from './pin-rules.ts';
import { type PinUse, pinUses } from './pin-uses.ts';
import { wireKeyOf } from './wanted-pins.ts';

/** Something against a pin, with what to do. */
export interface PinConflict {
  kind: ConflictKind;
  pin: number;
  /** What hangs on the pin, e.g. `the index finger`. */
  owner: string;
  /** Name of the finger, if it is one's pin. */
  finger?: string;
  /** It can never work; otherwise it only has its dangers. */
  isError: boolean;
  /** What was found, e.g. `GPIO4, on ADC2, which belongs to the radio`. */
  seen: string;
  expected: string;
  reason: string;
  cure: string;
}

/** Judged things need a number: none of it is right, or most of it. */
const ERROR_RATIO = 0;
const DANGER_RATIO = 0.9;
/** A danger that a part of this build takes care of. */
const HELD_RATIO = 1;

/**
 * Least capacitor that carries a pin over a dip. Computed: a pull of about 7.6 kΩ (micropython/micropython#5425: 1 V
 * lost behind 3.3 kΩ) on 2.45 V for about 80 ns (errata, from memory) takes 0.4 mV, half a count, from 64 nF.
 */
const DIP_CAPACITOR_F = 6.4e-8;

/**
 * All that is to be said against the pins of a rig, errors first.
 * @param plan where the cures lead; without one each names the best free pin
 */
export function pinConflicts(rig: Rig, plan?: PinPlan): PinConflict[] {
  const facts = boardFacts(rig.board);
  const uses = pinUses(rig);
  const taken = new Set(uses.map(({ pin }) => pin));
  const owners = new Map<number, PinUse>();
  const found: PinConflict[] = [];
  for (const use of uses) {
    const { pin, owner } = use;
    const finger = use.path[0] === 'fingers' ? String(use.path[1]) : undefined;
    const about = { pin, owner, ...(finger !== undefined && { finger }) };
    const first = owners.get(pin);
    if (first) {
      found.push({
        ...about,
        kind: 'taken',
        isError: true,
        seen: `GPIO${pin}, the pin of ${first.owner}`,
        expected: 'a pin of its own for each wire',
        reason: 'each would disturb the other',
        cure: plannedWords(use, plan) ?? moveWords(facts, use, taken),
      });
      continue;
    }
    owners.set(pin, use);
    const fault = pinFault(facts, pin, use.role);
    if (fault) {
      const kind = kindOf(facts, pin, use.role);
      found.push({
        ...about,
        kind,
        isError: fault.isError,
        seen: `GPIO${pin}${fault.seen}`,
        expected: fault.expected,
        reason: reasonOf(facts, pin, kind, fault),
        cure: plannedWords(use, plan) ?? moveWords(facts, use, taken),
      });
    } else if (use.role === 'analog' && facts.dippingPins.includes(pin)) {
      found.push({ ...about, ...dipOf(facts, use, plan, taken, capacitorAt(rig, use)) });
    } else if (use.role === 'analog' && facts.hiddenPins.includes(pin)) {
      found.push({
        ...about,
        kind: 'not brought out',
        isError: false,
        seen: `GPIO${pin}, which most modules do not bring out`,
        expected: `a pin that every module has: ${goodPins(facts, 'analog').join(', ')}`,
        reason: 'there may be nowhere to solder the wire',
        cure: `look for GPIO${pin} on your board, or put the strings on a multiplexer`,
      });
    }
  }
  return found.sort((a, b) => Number(b.isError) - Number(a.isError));
}

function dipOf(
  facts: BoardFacts,
  use: PinUse,
  plan: PinPlan | undefined,
  taken: ReadonlySet<number>,
  capacitorF: number,
) {
  const calmPins = goodPins(facts, 'analog').filter((good) => !facts.dippingPins.includes(good));
  const calm = calmPins.find((good) => !taken.has(good));
  const held = capacitorF >= DIP_CAPACITOR_F ? '; the capacitor there takes most of a dip' : '';
  const stayWords = `turn the radio off, and keep 100 nF right at the pin (${calmPins.join(', ')} do not dip, but are taken)${held}`;
  return {
    kind: 'dips' as const,
    isError: false,
    seen: `GPIO${use.pin}, which the chip pulls low for a moment`,
    expected: 'a pin that stays as it is, or a capacitor of 68 nF and more',
    reason: 'it dips when the radio wakes or a converter powers up (espressif/esp-idf#1096, #1517)',
    cure:
      plannedWords(use, plan) ??
      (calm === undefined ? stayWords : `move the wire to GPIO${calm}, which is free and does not dip`),
  };
}

function capacitorAt(rig: Rig, use: PinUse): number {
  if (use.path[0] !== 'fingers') return 0;
  return rig.fingers.find((finger) => finger.name === use.path[1])?.wiring.capacitorF ?? 0;
}

/** Where the plan takes the wire; undefined when it leaves it where it is. */
function plannedWords(use: PinUse, plan: PinPlan | undefined): string | undefined {
  const key = wireKeyOf(use.path);
  const channel = plan?.channels[key as keyof PinPlan['channels']];
  if (channel !== undefined) return `put the string on input Y${channel} of the plan’s multiplexer`;
  const planned = plan?.pins.find((wire) => wire.key === key);
  return planned && planned.pin !== use.pin
    ? `move the wire to GPIO${planned.pin}, as in the plan`
    : undefined;
}

/** The best free pin, told once each. */
function moveWords(facts: BoardFacts, use: PinUse, taken: Set<number>): string {
  if (use.role === 'receive') return 'move what else hangs there';
  const better = freePin(facts, use.role, taken);
  if (better !== undefined) {
    taken.add(better);
    return `move the wire to GPIO${better}, which is free`;
  }
  return use.role === 'analog'
    ? 'no good ADC1 pin is free: a multiplexer of the 74HC4051 type makes eight inputs of one'
    : 'no good pin is free: leave out what you need least';
}

/** The same as judged things; with none at all, one that says so. */
export function conflictMargins(rig: Rig, conflicts: readonly PinConflict[]): Margin[] {
  const margins = conflicts.map((conflict): Margin => {
    const finger = rig.fingers.find(({ name }) => name === conflict.finger);
    const isHeld = conflict.kind === 'dips' && (finger?.wiring.capacitorF ?? 0) >= DIP_CAPACITOR_F;
    return {
      group: 'pins',
      fingers: conflict.finger === undefined ? [] : [conflict.finger],
      isSoft: !conflict.isError,
      what: `the pin of ${conflict.owner}`,
      ratio: conflict.isError ? ERROR_RATIO : isHeld ? HELD_RATIO : DANGER_RATIO,
      seen: conflict.reason === '' ? conflict.seen : `${conflict.seen}: ${conflict.reason}`,
      allowed: conflict.expected,
      cure: conflict.cure,
    };
  });
  const facts = boardFacts(rig.board);
  if (facts.status !== 'usable') {
    margins.push({
      group: 'pins',
      fingers: [],
      isSoft: facts.status !== 'unusable',
      what: 'the board',
      ratio: facts.status === 'unusable' ? ERROR_RATIO : DANGER_RATIO,
      seen: `${facts.label}, ${facts.status}`,
      allowed: 'a board whose analog pins are known to work',
      cure: `take the original ESP32 (board: esp32). ${facts.statusReason.replace(/\.$/, '')}`,
    });
  }
  return margins;
}
