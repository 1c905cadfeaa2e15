import { boardFacts } from '../../firmware/boards/boards.ts';
import type { BoardFacts } from '../../firmware/boards/facts.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { freePin, pinFault } from '../../sim/sizing/pins/pin-rules.ts';
import { type PinUse, pinUses } from '../../sim/sizing/pins/pin-uses.ts';
import type { Findings } from './findings.ts';

function checkStatus(rig: Rig, facts: BoardFacts, findings: Findings): void {
  if (facts.status === 'usable' || findings.isCut(['board'])) return;
  findings.warn(
    findings.place(['board']),
    `board ${rig.board}: ${facts.status}`,
    'a board whose analog pins are known to work',
    facts.statusReason,
  );
}

/** What to do about a pin: the best free one, told once each. */
function proposal(use: PinUse, facts: BoardFacts, taken: Set<number>, why: string): string {
  const better = freePin(facts, use.role, taken);
  const because = why === '' ? '' : `: ${why}`;
  if (better !== undefined) {
    taken.add(better);
    return `move the wire to GPIO${better}, which is free${because}`;
  }
  const lack =
    use.role === 'analog' ? 'no ADC1 pin is free, a multiplexer makes eight of one' : 'none is free';
  return `${lack}${because}`;
}

/** Fingers on the multiplexer: there is one, and each has an input of its own. */
function checkChannels(rig: Rig, findings: Findings): void {
  const owner = new Map<number, string>();
  for (const { name, channel } of rig.fingers) {
    if (channel === undefined) continue;
    const path = ['fingers', name, 'channel'];
    const other = owner.get(channel);
    if (rig.multiplexer === undefined && !findings.isCut(['multiplexer'])) {
      findings.error(
        findings.place(path),
        `fingers.${name}.channel is ${channel}, but there is no multiplexer`,
        'a multiplexer with its pins, or a pin for the finger',
        'add "multiplexer:" with "select" and "signal", or write "pin"',
      );
    } else if (other !== undefined) {
      findings.error(
        findings.place(path),
        `fingers.${name}.channel is ${channel}, the input of the ${other} finger (line ${findings.lineOf(['fingers', other, 'channel'])})`,
        'an input of its own for each finger',
        'move one of the two wires to another input',
      );
    }
    owner.set(channel, name);
  }
}

/** Pins against the board: each its own, each able to do what it is for. */
export function checkPins(rig: Rig, findings: Findings): void {
  const facts = boardFacts(rig.board);
  checkStatus(rig, facts, findings);
  checkChannels(rig, findings);
  const uses = pinUses(rig).filter(({ path }) => !findings.isCut(path));
  const taken = new Set(uses.map(({ pin }) => pin));
  const owners = new Map<number, PinUse>();
  for (const use of uses) {
    const place = findings.place(use.path);
    const first = owners.get(use.pin);
    if (first !== undefined) {
      findings.error(
        place,
        `${use.label} is ${use.pin}, the pin of ${first.owner} (line ${findings.lineOf(first.path)})`,
        'a pin of its own for each wire',
        findings.isCut(['board'])
          ? 'move one of the two wires to another pin'
          : proposal(use, facts, taken, ''),
      );
      continue;
    }
    owners.set(use.pin, use);
    // Without a readable board there is no telling which pins it has.
    if (findings.isCut(['board'])) continue;
    const fault = pinFault(facts, use.pin, use.role);
    if (fault === undefined) continue;
    const seen = `${use.label} is ${use.pin}${fault.seen}`;
    const next = proposal(use, facts, taken, fault.why);
    if (fault.isError) findings.error(place, seen, fault.expected, next);
    else findings.warn(place, seen, fault.expected, next);
  }
}
