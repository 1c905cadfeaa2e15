import type { Crc32 } from '../../protocol/encode.ts';
import type { FingerState } from '../chain/finger.ts';
import type { ChainConstants } from '../chain/prepare.ts';

/** What is fixed when the program is made for a rig: its structure, and numbers that no command changes. */
export interface Build {
  periodS: number;
  /** Silence from which on the chain starts afresh, s. */
  gapS: number;
  /** Frames in about a second; a health frame is sent so often. */
  healthFrames: number;
  /** Frame rate as the health frame tells it, Hz, 0-255. */
  frameRateHz: number;
  rightHand: boolean;
  /** Of this program, 0-255: told in health frames, so that a host sees which program runs. */
  programId: number;
  oversampling: number;
  /** Readings taken of each finger, and how many of them are thrown away: the first ones. */
  readsEach: number;
  readsDropped: number;
  /** Place of each wired finger among the frame's five values. */
  slots: number[];
  /** Index of the first value in the frame's words. */
  firstPlace: number;
  /** Index of each wired finger's word in the frame's words. */
  places: number[];
  /** Pin of each wired finger. */
  pins: number[];
  /** Input of the multiplexer of each finger; empty = every finger has a pin. */
  channels: number[];
  /** The first reading after a change of channel is thrown away. */
  dummyRead: boolean;
  /** Reading of the rail pin, 0-1, at the nominal supply; 0 = no rail pin. */
  railNominal: number;
  /** Supply at that reading, mV. */
  railMv: number;
  /** Places of the joystick's axes in the readings, 0-2 of them. */
  axes: number[];
  /** Buttons wired, 0-4. */
  buttons: number;
  /** Steps that a button must read otherwise in a row. */
  debounceSteps: number;
  /** Readings below this, in sums, come from no wiper; per wired finger. 0 = this wiring cannot tell. */
  openBelow: number[];
  /** Bits of the wired fingers' places. */
  wired: number;
  /** Frames go out on a second serial port; those of other kinds on both. */
  hasLink: boolean;
  /** Whether wipers are watched for open wires and frozen readings. */
  watched: boolean;
}

/** What the program needs of the board: functions of the interpreter, and arrays that are made once. */
export interface BoardIo {
  /** Reads all pins that hang on no multiplexer into `readings`. */
  acquire: () => void;
  /** Reads one finger's channel of the multiplexer, which is selected already. */
  acquireChannel: (() => void)[];
  /** Sets the multiplexer's select lines. */
  select: (channel: number) => void;
  /** Sum of each wired finger's readings of the frame, each 0-1. */
  sums: (() => number)[];
  /** Sum of the rail's readings of the frame. */
  railSum: () => number;
  /** All readings of the frame, 0-1. */
  readings: Float32Array;
  /** Sum of a part of the readings. */
  sum: (part: Float32Array) => number;
  /** One reading of a pin, 0-1. */
  read: (pin: number) => number;
  /** Buttons as bits, button 1 in bit 0; 0 = pressed: they pull the pin to ground. */
  buttons: () => number;
  /** Clock of the board, s. */
  now: () => number;
  /** The hand frame. */
  bytes: Uint8Array;
  words: Uint16Array;
  /** CRC-32 of the hand frame's bytes before the check. */
  crc: () => number;
  /** Sends the hand frame. */
  send: () => void;
  /** The frame of the other kinds. */
  otherBytes: Uint8Array;
  otherWords: Uint16Array;
  /** Its bytes before the check. */
  otherChecked: Uint8Array;
  crc32: Crc32;
  write: (bytes: Uint8Array) => void;
  /** The same to the second serial port. */
  writeLink: (bytes: Uint8Array) => void;
  /** Sum of each wired finger when it was last looked at, and how often in a row that was the same. */
  lastSums: Float32Array;
  sameCounts: Uint8Array;
  /** Open and closed end of each of the five fingers as mean readings, finger by finger. */
  ends: Float32Array;
  /** Lowest, highest and first reading of each wired finger in a capture. */
  captured: Float32Array;
}

/** What the program remembers, apart from the fingers and the buttons. */
export interface RunState {
  /** Steps of the frame timer, and frames sent outside it. */
  sequence: number;
  /** Board clock at the start, s. */
  startS: number;
  /** Time of the last frame since the start, s. */
  lastS: number;
  /** The next frame takes the readings as they are. */
  isFresh: boolean;
  /** Status bits that last. */
  status: number;
  /** Errors caught; stays at 65534. */
  errors: number;
  /** Frames since the last health frame. */
  beat: number;
  /** Place among the five values of the channel that raw frames tell; -1 = hand frames. */
  rawSlot: number;
  isCapturing: boolean;
  /** Fingers with ends of their own, bit = place among the five values. */
  captured: number;
  /** Bit i: wired finger i is frozen. */
  frozen: number;
  /** Wired finger that is looked at next. */
  turn: number;
  /** Wired finger that was seen moving last, and how many looks ago. */
  mover: number;
  moverAge: number;
}

export interface ButtonState {
  /** Bits, 1 = pressed. */
  pressed: number;
  isBouncing: boolean;
  counts: number[];
}

export interface Program {
  build: Build;
  io: BoardIo;
  /** One for each wired finger. */
  fingers: FingerState[];
  constants: ChainConstants[];
  buttons: ButtonState;
  run: RunState;
}
