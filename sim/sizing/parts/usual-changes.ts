import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { pinUses } from '../pins/pin-uses.ts';
import { ohmWords } from '../value-words.ts';
import { dividerOnSupply } from '../wiring/corners.ts';
import { railResistors } from '../wiring/rail-resistors.ts';
import { proposeResistors, type ResistorPair } from '../wiring/resistors.ts';
import { E24 } from '../wiring/series.ts';
import type { RigChange } from './change-costs.ts';

/** Capacitor and resistor from the pin to ground, F and ohm, as the defaults of a rig have them. */
const CAPACITOR_F = 1e-7;
const PULL_DOWN_OHM = 100_000;
/** Cycles that conductive plastic is rated for; makers name 100 000 and more. Assumed. */
const LONG_LIFE_CYCLES = 100_000;
const PRECISE = 0.01;

/** What makers most often think of changing in the wiring, each with the rig that it makes. */
export function usualChanges(rig: Rig): RigChange[] {
  const changes: RigChange[] = [];
  const { adc1Pins, digitalPins } = boardFacts(rig.board);
  const precise = preciseWiring(rig);
  if (precise) changes.push(precise);
  if (rig.fingers.some(({ wiring }) => wiring.capacitorF === 0)) {
    changes.push({ what: '100 nF at every pin', rig: wired(rig, { capacitorF: CAPACITOR_F }) });
  }
  if (rig.fingers.some(({ wiring }) => wiring.pullDownOhm === 0)) {
    changes.push({
      what: `${ohmWords(PULL_DOWN_OHM)} from every pin to ground`,
      rig: wired(rig, { pullDownOhm: PULL_DOWN_OHM }),
    });
  }
  if (rig.fingers.some(({ potentiometer }) => potentiometer.ratedCycles < LONG_LIFE_CYCLES)) {
    changes.push({
      what: 'potentiometers rated for 100 000 cycles',
      rig: changed(rig, (finger) => ({
        ...finger,
        potentiometer: { ...finger.potentiometer, ratedCycles: LONG_LIFE_CYCLES, usedCycles: 0 },
      })),
    });
  }
  const taken = new Set(pinUses(rig).map(({ pin }) => pin));
  const railPin = adc1Pins.find((pin) => !taken.has(pin));
  if (!rig.rail && railPin !== undefined) {
    const { topOhm, bottomOhm } = railResistors(0.5);
    changes.push({
      what: `the supply measured through ${ohmWords(topOhm)} and ${ohmWords(bottomOhm)}`,
      rig: { ...rig, rail: { pin: railPin, divider: 0.5 } },
    });
  }
  const [low, middle, high] = digitalPins.filter((pin) => !taken.has(pin));
  if (!rig.multiplexer && low !== undefined && middle !== undefined && high !== undefined) {
    const signalPin = rig.fingers[0]!.pin;
    const selectPins: [number, number, number] = [low, middle, high];
    changes.push({
      what: 'a multiplexer, all fingers on one pin',
      rig: {
        ...rig,
        multiplexer: { selectPins, signalPin },
        fingers: rig.fingers.map((finger, channel) => ({ ...finger, pin: signalPin, channel })),
      },
    });
  }
  return changes;
}

/** What could be left out or taken cheaper, each with the rig that is left; some may save nothing. */
export function possibleSavings(rig: Rig): RigChange[] {
  const changes: RigChange[] = [];
  const without = (what: string, key: 'joystick' | 'buttons' | 'rail' | 'frameLink' | 'cell' | 'brakes') => {
    if (rig[key] === undefined) return;
    const { [key]: _, ...rest } = rig;
    changes.push({ what, rig: rest });
  };
  without('no brakes', 'brakes');
  without('no cell: feed the board over USB', 'cell');
  without('frames over the console, no second serial port', 'frameLink');
  without('no joystick', 'joystick');
  without('no buttons', 'buttons');
  without('no measuring of the supply', 'rail');
  if (rig.fingers.some(({ potentiometer }) => potentiometer.ratedCycles > 10_000)) {
    changes.push({
      what: 'plain carbon potentiometers, which wear out sooner',
      rig: changed(rig, (finger) => ({
        ...finger,
        potentiometer: {
          ...finger.potentiometer,
          ratedCycles: Math.min(finger.potentiometer.ratedCycles, 10_000),
        },
      })),
    });
  }
  if (rig.fingers.length > 3) {
    const kept = rig.fingers.slice(0, 3);
    changes.push({
      what: `only ${kept.map(({ name }) => name).join(', ')} to begin with`,
      rig: { ...rig, fingers: kept },
    });
  }
  return changes;
}

/** The widest pair of 1 % resistors for each finger; undefined where one has none. */
function preciseWiring(rig: Rig): RigChange | undefined {
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const pairs: ResistorPair[] = [];
  const fingers: Finger[] = [];
  for (const finger of rig.fingers) {
    const divider = { ...dividerOnSupply(rig, finger), seriesTolerance: PRECISE };
    const pair = proposeResistors(divider, [low / 1000, high / 1000], E24, true);
    if (!pair) return undefined;
    pairs.push(pair);
    const { topOhm, bottomOhm } = pair;
    fingers.push({ ...finger, wiring: { ...finger.wiring, topOhm, bottomOhm, seriesTolerance: PRECISE } });
  }
  const [first] = pairs;
  const isOne = pairs.every((pair) => pair.topOhm === first?.topOhm && pair.bottomOhm === first.bottomOhm);
  const values =
    first && isOne
      ? `${ohmWords(first.topOhm)} at the top and ${ohmWords(first.bottomOhm)} at the bottom`
      : 'matched to each finger';
  return { what: `1 % resistors, ${values}`, rig: { ...rig, fingers } };
}

function changed(rig: Rig, change: (finger: Finger) => Finger): Rig {
  return { ...rig, fingers: rig.fingers.map(change) };
}

function wired(rig: Rig, wiring: Partial<Finger['wiring']>): Rig {
  return changed(rig, (finger) => ({ ...finger, wiring: { ...finger.wiring, ...wiring } }));
}
