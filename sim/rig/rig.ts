import type { BoardId } from '../../firmware/boards/board.ts';
import type { Settings } from '../../firmware/chain/settings.ts';

/** The five fingers in frame order; a rig may wire fewer. */
export const FINGER_NAMES = ['thumb', 'index', 'middle', 'ring', 'little'] as const;
export type FingerName = (typeof FINGER_NAMES)[number];

/** A guide that the string bends round. */
export interface Guide {
  /** Angle over which the string touches the guide, deg, 0-360. */
  wrapDeg: number;
  /** Coulomb friction coefficient of string on guide, 0-1. */
  friction: number;
}

/** The strip that a spiral spring is wound from. */
export interface Strip {
  widthMm: number;
  thicknessMm: number;
  lengthMm: number;
  /** Young's modulus, GPa. */
  modulusGPa: number;
  /** Inner radius of the barrel that it lies in, and radius of what it is wound on, mm. */
  barrel?: { radiusMm: number; arborRadiusMm: number };
}

/** The return spring, as torque on the spool's shaft. */
export interface Spring {
  /** Torque with the finger open, mN·m; > 0. */
  openTorqueMNm: number;
  /** Added torque per turn of the spool, mN·m; >= 0. */
  perTurnMNm: number;
  /** Half-width of the torque hysteresis as a share of the torque, 0-0.5. */
  hysteresis: number;
  /** What both torques were worked out from, where the rig file says. */
  strip?: Strip;
}

export interface Potentiometer {
  resistanceOhm: number;
  /** Tolerance of the end-to-end resistance, 0.2 = ±20 %. */
  tolerance: number;
  /** Angle over which the wiper voltage changes, deg. */
  electricalTravelDeg: number;
  /** Angle between the end stops, deg; >= electricalTravelDeg. */
  mechanicalTravelDeg: number;
  /** Worst departure from the best straight line as a share of the supply, 0.02 = 2 %. */
  linearity: number;
  /** Torque needed to turn the shaft, mN·m. */
  dragMNm: number;
  /** Cycles (open-close-open) that the part has done so far. */
  usedCycles: number;
  /** Cycles that its maker rates it for. */
  ratedCycles: number;
}

export interface Wiring {
  /** Resistor from the supply to the potentiometer's top end, ohm; 0 = a wire. */
  topOhm: number;
  /** Resistor from its bottom end to ground, ohm; 0 = a wire. */
  bottomOhm: number;
  /** Tolerance of both, 0.05 = ±5 %. */
  seriesTolerance: number;
  /** Resistor from the pin to ground, ohm; 0 = none. */
  pullDownOhm: number;
  /** Capacitor from the pin to ground, F; 0 = none. */
  capacitorF: number;
}

/** The joints of one finger as measured on the hand. */
export interface MeasuredJoints {
  /** Round each joint on the skin, mm; in the order of the moment arms. */
  circumferencesMm: [number, number, number];
  /** From the skin to the string, mm; it does not grow with the hand. */
  guideHeightMm: number;
}

/** One string with all that hangs on it. */
export interface Finger {
  name: FingerName;
  /** GPIO number of the ADC pin. */
  pin: number;
  /** Input of the rig's multiplexer that the finger hangs on, 0-7; `pin` is then the multiplexer's signal pin. */
  channel?: number;
  /** Distance of the string from each joint's axis, mm: MCP, PIP, DIP (thumb: CMC, MCP, IP). */
  momentArmsMm: [number, number, number];
  /** What the arms were worked out from, where the rig file says; they are then those of a hand of size 1. */
  joints?: MeasuredJoints;
  guides: Guide[];
  /** Half-width of the play between string and spool, mm; that of the shaft in it. */
  playMm: number;
  /** The part of that play which is the shaft's in the spool or the potentiometer, its whole width, deg. */
  backlashDeg?: number;
  /** Stiffness of the string's fastening at the fingertip, N/mm. */
  anchorNPerMm: number;
  spoolRadiusMm: number;
  stringDiameterMm: number;
  spring: Spring;
  potentiometer: Potentiometer;
  wiring: Wiring;
}

/** Noise that the ADC pin sees, in counts of a 12-bit reading. */
export interface NoiseLevels {
  /** Standard deviation of a single reading at rest, counts. */
  sdCounts: number;
  /** Amplitude of mains hum, counts. */
  humCounts: number;
  humHz: number;
  /** Share of readings hit by an isolated spike, 0-0.1. */
  spikeShare: number;
  /** Smallest and largest size of such a spike, counts; either sign. */
  spikeCounts: [number, number];
  /** Share of even readings that come out odd, 0-1 (a habit of some silicon). */
  oddShare: number;
  /** Slow pick-up at the wiper at mid travel, counts sd; falls to none at both ends. */
  wanderCounts: number;
  /** Share of the previous channel's voltage left at a channel change, 0-0.2. */
  residue: number;
  /**
   * Factor on the variance of what the wiring picks up ahead of the capacitor, against the build that the levels
   * belong to; 1 if left out. Not part of the rig file: set when a study changes the capacitor.
   */
  pickUpFactor?: number;
}

/** Noise of a recording at rest, one array of counts per channel. */
export interface RestRecording {
  /** Path as the user gave it, for messages. */
  file: string;
  /** Mean time between rows, s. */
  periodS: number;
  /** counts[channel][row] */
  counts: Float64Array[];
  channelNames: string[];
}

export interface Wishes {
  /** Largest jitter at rest, % of full closure (sd). */
  jitterPct: number;
  /** Largest lag at fast grasps, ms. */
  lagMs: number;
  /** Most false gestures an hour with the hand held at the threshold. */
  falsePerHour: number;
  /** Largest share of the frame time that the board may spend, 0-1. */
  frameShare: number;
  /** Largest single jump in slow motion, % of full closure. */
  stepPct: number;
  /** Largest part of the travel that may be lost at an end, % of full closure. */
  endMissPct: number;
}

/** Gesture toggle on closure: two thresholds and a dwell. */
export interface GestureThresholds {
  onClosure: number;
  offClosure: number;
  dwellMs: number;
}

/** Two axes, each on an ADC1 pin of its own. */
export interface Joystick {
  xPin: number;
  yPin: number;
}

/** Pin that measures the potentiometers' supply through a divider. */
export interface Rail {
  pin: number;
  /** Share of the supply at the pin, more than 0 and at most 1. */
  divider: number;
}

/** External 8-channel analog multiplexer. */
export interface Multiplexer {
  /** Pins of its select lines, the lowest bit first. */
  selectPins: [number, number, number];
  /** ADC1 pin on its common line. */
  signalPin: number;
}

/** The cell that feeds the board. */
export interface Cell {
  capacityMAh: number;
  /** Most current that its maker allows, A; one hour's capacity an hour (1C) if left out. */
  maxA?: number;
}

/** Brakes as planned: one servo a pin, each blocking a string. Nothing drives them yet. */
export interface Brakes {
  pins: number[];
  /** Current of one servo that is held, A. */
  stallA: number;
  /** Whether the servos have a supply of their own, or hang on the board's. */
  supply: 'own' | 'cell';
  /** Most current of their own supply, A. */
  supplyA?: number;
  /** Capacitor beside the servos, F. */
  capacitorF?: number;
  /** Force at which the slip clutch lets the string go, N; none if left out. */
  clutchN?: number;
  /** Whether their supply is cut in hardware as soon as the board goes silent. */
  hasCutOff: boolean;
}

/** One hand controller, as built or planned. All numbers are in the units their names carry. */
export interface Rig {
  name: string;
  hand: { side: 'left' | 'right' /** 1 = the published mean hand, 0.8-1.2 */; scale: number };
  board: BoardId;
  supply: {
    /** Nominal voltage over the potentiometers, V. */
    volts: number;
    /** Tolerance of it, 0.03 = ±3 %. */
    tolerance: number;
    /** Slow sag under load (peak), share of the voltage. */
    sag: number;
  };
  frameRateHz: number;
  fingers: Finger[];
  noise: NoiseLevels;
  gesture: GestureThresholds;
  /** Points of the host's calibration curve: 2 (ends only) to 9. */
  calibrationPoints: number;
  wishes: Wishes;
  joystick?: Joystick;
  /** Pins of up to four buttons, each between its pin and ground. */
  buttons?: number[];
  rail?: Rail;
  multiplexer?: Multiplexer;
  /** Second serial port that frames go out on; left out: the console, where commands come in in any case. */
  frameLink?: { txPin: number; baud: number };
  /** Time after which the board's watchdog restarts a program that hangs, s; none if left out. */
  watchdogS?: number;
  /** Whether the first reading after a change of pin is thrown away; with a multiplexer it always is. */
  dummyRead?: boolean;
  cell?: Cell;
  brakes?: Brakes;
  /** Most that the parts of one hand may cost, in the currency of the price file; > 0. */
  budget?: number;
  /** Chosen settings, once `choose --write` has put them there. */
  settings?: Settings;
}
