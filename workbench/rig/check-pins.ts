import { boardFacts } from '../../firmware/boards/boards.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { Findings } from './findings.ts';

/** Pins against the board: each its own, all on the ADC that the radio leaves alone. */
export function checkPins(rig: Rig, findings: Findings): void {
  const facts = boardFacts(rig.board);
  const usable = [...facts.adc1Pins].sort((a, b) => a - b);
  const expected = `an ADC1 pin of the ${facts.label}: ${usable.join(', ')}`;
  if (facts.status !== 'usable' && !findings.isCut(['board'])) {
    findings.warn(
      findings.place(['board']),
      `board ${rig.board}: ${facts.status}`,
      'a board whose analog pins are known to work',
      facts.statusReason,
    );
  }
  const owner = new Map<number, string>();
  for (const { name, pin } of rig.fingers) {
    const path = ['fingers', name, 'pin'];
    const place = findings.place(path);
    const first = owner.get(pin);
    if (first !== undefined) {
      const line = findings.lineOf(['fingers', first, 'pin']);
      findings.error(
        place,
        `fingers.${name}.pin is ${pin}, the pin of the ${first} finger (line ${line})`,
        'a pin of its own for each finger',
        'move one of the two wires to another pin',
      );
      continue;
    }
    owner.set(pin, name);
    // Without a readable board there is no telling which pins it has.
    if (findings.isCut(['board'])) continue;
    if (!facts.adc1Pins.includes(pin)) {
      const onAdc2 = facts.adc2Pins.includes(pin);
      findings.error(
        place,
        onAdc2
          ? `fingers.${name}.pin is ${pin}, on ADC2, which belongs to the radio`
          : `fingers.${name}.pin is ${pin}`,
        expected,
        'move the wire to one of these pins',
      );
    } else if (facts.strappingPins.includes(pin)) {
      findings.warn(
        place,
        `fingers.${name}.pin is ${pin}, a strapping pin`,
        'a pin whose level at reset does not matter',
        `another pin if one is free: GPIO${pin} ${facts.pinNotes[pin] ?? 'decides how the chip starts'}`,
      );
    }
  }
}
