/* Host only. All that a program is made from, worked out of a rig: for the bundler and for the simulated board alike. */
import type { Settings } from '../chain/settings.ts';
import type { Ends } from '../chain/word-scale.ts';
import type { ProgramFacts } from './board-device.ts';

export interface FingerPlan {
  /** Place among the five values: 0 thumb to 4 little finger. */
  slot: number;
  /** GPIO number that is read. */
  pin: number;
  /** Input of the multiplexer; -1 = none. */
  channel: number;
  /** Ends built into the program, mean readings 0-1. */
  ends: Ends;
  /** Mean reading below which no wiper is connected, 0-1; 0 = this wiring cannot tell. */
  openBelow: number;
}

export interface BoardPlan {
  settings: Settings;
  frameRateHz: number;
  facts: ProgramFacts;
  /** One for each wired finger, in the order of their places; with a multiplexer in the order in which they are read. */
  fingers: FingerPlan[];
  /** Throw the first reading after a change of channel away. */
  dummyRead: boolean;
  /** Rail pin with its reading at the nominal supply, 0-1, and that supply in mV. */
  rail: { pin: number; nominal: number; supplyMv: number } | undefined;
  /** ADC pins of the joystick's axes, x then y; none, or both. */
  axisPins: number[];
  /** GPIO numbers of up to four buttons, each to ground. */
  buttonPins: number[];
  /** Select lines of the multiplexer, lowest bit first. */
  selectPins: number[];
  /** Watch for open and frozen wipers. */
  watched: boolean;
  /** Seconds after which the board's watchdog restarts it; 0 = none. */
  watchdogS: number;
  /** Full scale of the attenuator that is set for all analog pins, mV, as the interpreter's setAtten takes it. */
  attenuationMv: number;
  /** UART that frames go out on: the console, or 2. */
  frameUart: 'console' | { uart: 2; txPin: number; baud: number };
}
