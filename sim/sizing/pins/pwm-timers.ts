import type { BoardId } from '../../../firmware/boards/board.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { INTERPRETER_PWM, PWM_FACTS } from './pwm-facts.ts';

/** One pin that sends pulses. */
export interface PwmOutput {
  /** What hangs on it, for messages. */
  what: string;
  /** GPIO number. */
  pin: number;
  /** > 0 */
  frequencyHz: number;
  /** Channel that a program of one's own names; without it the interpreter chooses. */
  channel?: number;
}

/** An output with all that the chip gives it. */
export interface PwmSlot extends PwmOutput {
  channel: number;
  timer: number;
  bits: number;
  /** Clock that the timer counts, Hz. */
  clockHz: number;
  /** Shortest change of the pulse, µs. */
  stepUs: number;
}

/** An output that cannot be had, with the reason and what to do. */
export interface PwmRefusal extends PwmOutput {
  reason: string;
  cure: string;
  /** Pulses made by software could still serve it. */
  softwareHelps: boolean;
}

export interface PwmAllocation {
  slots: PwmSlot[];
  refused: PwmRefusal[];
}

/** Largest divider of a timer's clock: 18 bits, the lower 8 a fraction (limits of ESP-IDF's LEDC driver). */
const MOST_DIVIDER = 2 ** 18 - 1;
const DIVIDER_ONE = 2 ** 8;

/** Divider register for a clock, a frequency and a resolution; whole range 256 (divides by one) to 262143. */
export function pwmDivider(clockHz: number, frequencyHz: number, bits: number): number {
  return Math.floor((clockHz * DIVIDER_ONE) / (frequencyHz * 2 ** bits));
}

/** Clocks of a board that reach a frequency at a resolution, Hz, the fastest first. */
export function pwmClocks(board: BoardId, frequencyHz: number, bits: number): number[] {
  const facts = PWM_FACTS[board];
  if (bits < 1 || bits > facts.mostBits) return [];
  return facts.clocksHz.filter((clockHz) => {
    const divider = pwmDivider(clockHz, frequencyHz, bits);
    return divider >= DIVIDER_ONE && divider <= MOST_DIVIDER;
  });
}

/**
 * Gives each output a timer and a channel as the interpreter's analogWrite would, or refuses it.
 * Outputs come first come, first served: the order is that of the program's calls.
 */
export function allocatePwm(board: BoardId, outputs: readonly PwmOutput[]): PwmAllocation {
  const { bits, sharedHz, sharedTimer, sharedPins, ownTimers } = INTERPRETER_PWM;
  const { channelsPerGroup } = PWM_FACTS[board];
  const book = new Book(board, bits);
  let shared = 0;
  let own = 0;
  for (const output of outputs) {
    if (!book.admits(output)) continue;
    if (output.frequencyHz === sharedHz) {
      if (shared === sharedPins) {
        book.refuse(output, `the interpreter sends ${sharedHz} Hz to ${sharedPins} pins at most`, SOFTWARE);
      } else if (book.give(output, shared, sharedTimer)) shared++;
      continue;
    }
    const channel = sharedPins + own;
    if (own === ownTimers || channel >= channelsPerGroup) {
      const most = Math.min(ownTimers, channelsPerGroup - sharedPins);
      book.refuse(
        output,
        `the interpreter gives each pin that is not at ${sharedHz} Hz a timer of its own, and has ${most} on the ${boardFacts(board).label}`,
        SOFTWARE,
      );
    } else if (book.give(output, channel, own)) own++;
  }
  return book.result;
}

/**
 * Checks channels that a program of one's own names. Common libraries put each pair of channels on one timer (0 and
 * 1 on the first, 2 and 3 on the second): then the later of two frequencies wins on both (wokwi/wokwi-features#731).
 * @param bits of each timer
 */
export function checkPwmChannels(
  board: BoardId,
  outputs: readonly (PwmOutput & { channel: number })[],
  bits: number,
): PwmAllocation {
  const facts = PWM_FACTS[board];
  const channels = facts.groups * facts.channelsPerGroup;
  const book = new Book(board, bits);
  const onTimer = new Map<number, PwmOutput & { channel: number }>();
  for (const output of outputs) {
    if (!book.admits(output)) continue;
    const { channel, frequencyHz } = output;
    if (channel < 0 || channel >= channels || !Number.isInteger(channel)) {
      book.refuse(output, `there is no channel ${channel}: they are 0 to ${channels - 1}`, {
        cure: 'take another channel',
        softwareHelps: false,
      });
      continue;
    }
    const group = Math.floor(channel / facts.channelsPerGroup);
    const timer =
      group * facts.timersPerGroup +
      (Math.floor((channel % facts.channelsPerGroup) / 2) % facts.timersPerGroup);
    const other = onTimer.get(timer);
    if (other && other.frequencyHz !== frequencyHz) {
      book.refuse(
        output,
        `channels ${other.channel} and ${channel} share a timer: the last frequency set, ${frequencyHz} or ${other.frequencyHz} Hz, would hold for both (wokwi/wokwi-features#731)`,
        { cure: `leave a channel out: take ${channel + 1} or above, of another pair`, softwareHelps: false },
      );
      continue;
    }
    if (book.give(output, channel, timer)) onTimer.set(timer, other ?? output);
  }
  return book.result;
}

const SOFTWARE = {
  cure: 'let digitalPulse make its pulses in software, or take a pulse generator chip on I2C',
  softwareHelps: true,
};

/** Keeps what is given out, and says no where the chip would. */
class Book {
  readonly result: PwmAllocation = { slots: [], refused: [] };

  constructor(
    private readonly board: BoardId,
    private readonly bits: number,
  ) {}

  refuse(output: PwmOutput, reason: string, { cure, softwareHelps }: typeof SOFTWARE): void {
    this.result.refused.push({ ...output, reason, cure, softwareHelps });
  }

  /** Whether pin and frequency are possible at all. */
  admits(output: PwmOutput): boolean {
    const facts = boardFacts(this.board);
    const { pin, frequencyHz } = output;
    const no = (reason: string, cure: string) => {
      this.refuse(output, reason, { cure, softwareHelps: false });
      return false;
    };
    if (facts.inputOnlyPins.includes(pin)) {
      return no(`GPIO${pin} has no output driver`, `take one of ${facts.digitalPins.join(', ')}`);
    }
    if (facts.dacPins.includes(pin)) {
      return no(
        `GPIO${pin} belongs to the digital-to-analog converter: our choice, as is common, to leave it out for servos, and the interpreter’s analogWrite gives a voltage there, no pulses`,
        'take another pin',
      );
    }
    if (this.result.slots.some((slot) => slot.pin === pin)) {
      return no(`GPIO${pin} sends pulses already`, 'take another pin');
    }
    if (pwmClocks(this.board, frequencyHz, this.bits).length === 0) {
      return no(
        `${frequencyHz} Hz at ${this.bits} bits is out of the timers’ reach (dividers 1 to 1023.99 of ${PWM_FACTS[this.board].clocksHz.map((hz) => `${hz / 1e6} MHz`).join(' or ')})`,
        'take another frequency, or another resolution',
      );
    }
    return true;
  }

  /** Puts an output down, unless the driver would have its timer count another clock than those that run already. */
  give(output: PwmOutput, channel: number, timer: number): boolean {
    const clocks = pwmClocks(this.board, output.frequencyHz, this.bits);
    const { slots } = this.result;
    const clockHz = clocks[0]!;
    const other = slots.find((slot) => slot.clockHz !== clockHz);
    if (PWM_FACTS[this.board].sharesClock && other) {
      this.refuse(
        output,
        `all timers of the ${boardFacts(this.board).label} count one clock, and the driver picks ${clockHz / 1e6} MHz for ${output.frequencyHz} Hz but ${other.clockHz / 1e6} MHz for ${other.frequencyHz} Hz (espressif/esp-idf#13769)`,
        { cure: 'let both have the same frequency', softwareHelps: true },
      );
      return false;
    }
    const stepUs = 1e6 / output.frequencyHz / 2 ** this.bits;
    slots.push({ ...output, channel, timer, bits: this.bits, clockHz, stepUs });
    return true;
  }
}
