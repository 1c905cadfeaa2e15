/* Host only: what the models and the planner need to know of a board. */
import type { AttenuationDb } from './adc-curve.ts';
import type { BoardId } from './board.ts';

/** Lowest and highest voltage that the chip's maker vouches for, mV. */
export type RangeMv = [low: number, high: number];

/**
 * How far a board is known to work with the interpreter.
 * - `usable`: its analog pins read
 * - `experimental`: reads, but unexplained wrong readings are on record
 * - `unusable`: the interpreter's build declares no analog pins, every read gives NaN
 */
export type BoardStatus = 'usable' | 'experimental' | 'unusable';

export interface BoardFacts {
  id: BoardId;
  label: string;
  status: BoardStatus;
  /** One sentence for the user on why the status is what it is. */
  statusReason: string;
  /** GPIO numbers that the interpreter reads on ADC1, best ones first. */
  adc1Pins: number[];
  /** GPIO numbers on ADC2, which the radio owns: never for strings. */
  adc2Pins: number[];
  /** GPIO numbers whose level at reset changes how the chip starts. */
  strappingPins: number[];
  /** GPIO numbers without output driver and without pull resistors. */
  inputOnlyPins: number[];
  /** GPIO numbers wired to the module's flash memory. */
  flashPins: number[];
  /** GPIO numbers of the chip's own USB port. */
  usbPins: number[];
  /** GPIO numbers of the console that the host talks to. */
  consolePins: number[];
  /** GPIO numbers that the interpreter's analogRead takes, but reads another pin for: asked pin to read pin. */
  aliasedPins: { [pin: number]: number };
  /** GPIO numbers for buttons and select lines, best ones first; all have an output driver and a pull-up. */
  digitalPins: number[];
  /** GPIO numbers of the digital-to-analog converter: there the interpreter's analogWrite gives a voltage, no pulses. */
  dacPins: number[];
  /** ADC1 GPIO numbers that most modules do not bring out. */
  hiddenPins: number[];
  /** ADC1 GPIO numbers that the chip itself pulls low for moments. */
  dippingPins: number[];
  /** GPIO numbers that send pulses of their own while the chip starts: not for anything that moves. */
  restlessPins: number[];
  /** What a maker should know of single pins, by GPIO number. */
  pinNotes: { [pin: number]: string };
  /** Range at the interpreter's default attenuation, mV. */
  adcRangeMv: RangeMv;
  /** Range at each attenuation, mV, by dB. */
  adcRangesMv: { [db in AttenuationDb]: RangeMv };
  /** Processor clock that the interpreter's build sets, Hz. */
  clockHz: number;
  /** Time that the hardware takes for one analogRead, µs. */
  readUs: number;
  /** Most JavaScript variables that the interpreter's build can give; free memory may allow fewer. */
  jsVariables: number;
  /** Where each fact comes from. */
  sources: { [fact in FactName]: string };
}

export type FactName =
  | 'adc1Pins'
  | 'adc2Pins'
  | 'strappingPins'
  | 'inputOnlyPins'
  | 'flashPins'
  | 'usbPins'
  | 'consolePins'
  | 'aliasedPins'
  | 'digitalPins'
  | 'dacPins'
  | 'hiddenPins'
  | 'dippingPins'
  | 'restlessPins'
  | 'adcRangeMv'
  | 'clockHz'
  | 'readUs'
  | 'jsVariables'
  | 'status';
