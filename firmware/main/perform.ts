/** Does what a command says, through functions that the program hands in. */
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_COUNTER,
  COMMAND_GET,
  COMMAND_IDENTIFY,
  COMMAND_RAW,
  COMMAND_RESTART,
  COMMAND_SET,
  COMMAND_START,
  COMMAND_STOP,
  COMMAND_STORE,
  COMMAND_STORED,
  COMMAND_VERSION,
  COMMAND_ZERO,
  type Command,
  type NumberViews,
  SUBJECT_ALL,
} from '../../protocol/commands.ts';
import {
  RESULT_BAD_ARGUMENT,
  RESULT_DONE,
  RESULT_FAILED,
  RESULT_NOT_NOW,
  RESULT_UNKNOWN_COMMAND,
  VALUE_COUNT,
} from '../../protocol/frame.ts';
import { SAVE_DONE, SAVE_FULL, SAVE_KEPT, SAVE_UNCHANGED } from '../storage/calibration-store.ts';
import type { Reply } from './reply.ts';

/** What a program can be told. Numbers that do not exist are NaN; what cannot be done now is false. */
export interface BoardActions {
  /** @param which 0: version of SPEC.md × 256 + version of the program, 1: settings id */
  version: (which: number) => number;
  /** @param which 0: frames dropped, 1: errors, 2: damaged commands, 3: commands done */
  counter: (which: number) => number;
  /** Sets a live number; false if there is none of this index. The value is finite. */
  setNumber: (finger: number, index: number, value: number) => boolean;
  getNumber: (finger: number, index: number) => number;
  /** Sends raw frames of a channel, 0-4; 255 = hand frames again. False if the channel is not wired. */
  raw: (channel: number) => boolean;
  beginCapture: () => boolean;
  /** Ends the capture. @returns bit i: finger i moved far enough and has new ends; NaN if none was begun */
  endCapture: () => number;
  /** Stores the ends in use. @returns one of the SAVE codes */
  store: (replace: boolean) => number;
  /** @param which 0: sequence of the stored record in use, 1: state of slot 0 + 16 × slot 1 + 256 × (slot in use + 1) */
  stored: (which: number) => number;
  /** Takes the present reading for the open end of a finger, 0-4, or of all, 255. */
  zero: (finger: number) => boolean;
  /** CRC-32 of the running program's file. */
  identify: () => number;
  stream: (on: boolean) => void;
  /** Told of an error that a command threw. */
  failed: () => void;
  /** Starts anew, after the reply has been sent. */
  restart: () => void;
}

function answerNumber(reply: Reply, number: number): number {
  if (number !== number) return RESULT_BAD_ARGUMENT;
  reply.answer = number;
  return RESULT_DONE;
}

function storeResult(reply: Reply, saved: number): number {
  reply.answer = saved;
  if (saved === SAVE_DONE || saved === SAVE_UNCHANGED) return RESULT_DONE;
  return saved === SAVE_FULL || saved === SAVE_KEPT ? RESULT_NOT_NOW : RESULT_FAILED;
}

function getHalf(command: Command, actions: BoardActions, views: NumberViews, reply: Reply): number {
  const number = actions.getNumber(command.subject, command.index);
  const high = command.value === 1;
  if (number !== number || (!high && command.value !== 0)) return RESULT_BAD_ARGUMENT;
  views.number[0] = number;
  reply.answer = views.quarters[high ? 2 : 0] + 65536 * views.quarters[high ? 3 : 1];
  return RESULT_DONE;
}

function doSet(command: Command, actions: BoardActions): number {
  // infinity and NaN would stay in the filters' state for good
  if (command.value - command.value !== 0 || command.subject >= VALUE_COUNT) return RESULT_BAD_ARGUMENT;
  return actions.setNumber(command.subject, command.index, command.value) ? RESULT_DONE : RESULT_BAD_ARGUMENT;
}

function nowOrNot(done: boolean): number {
  return done ? RESULT_DONE : RESULT_NOT_NOW;
}

function isFinger(subject: number): boolean {
  return subject < VALUE_COUNT || subject === SUBJECT_ALL;
}

/**
 * Does a command.
 * @param views scratch
 * @param reply its answer is set where there is one
 * @returns one of the RESULT codes
 */
export function perform(command: Command, actions: BoardActions, views: NumberViews, reply: Reply): number {
  const code = command.code;
  const subject = command.subject;
  if (code === COMMAND_SET) return doSet(command, actions);
  if (code === COMMAND_GET) return getHalf(command, actions, views, reply);
  if (code === COMMAND_VERSION) return answerNumber(reply, actions.version(subject));
  if (code === COMMAND_COUNTER) return answerNumber(reply, actions.counter(subject));
  if (code === COMMAND_STORED) return answerNumber(reply, actions.stored(subject));
  if (code === COMMAND_IDENTIFY) return answerNumber(reply, actions.identify());
  if (code === COMMAND_RAW) {
    if (!isFinger(subject)) return RESULT_BAD_ARGUMENT;
    return actions.raw(subject) ? RESULT_DONE : RESULT_BAD_ARGUMENT;
  }
  if (code === COMMAND_ZERO) {
    if (!isFinger(subject)) return RESULT_BAD_ARGUMENT;
    return nowOrNot(actions.zero(subject));
  }
  if (code === COMMAND_CAPTURE_BEGIN) return nowOrNot(actions.beginCapture());
  if (code === COMMAND_CAPTURE_END) {
    const moved = actions.endCapture();
    if (moved !== moved) return RESULT_NOT_NOW;
    return answerNumber(reply, moved);
  }
  if (code === COMMAND_STORE) {
    if (command.value !== 0 && command.value !== 1) return RESULT_BAD_ARGUMENT;
    return storeResult(reply, actions.store(command.value === 1));
  }
  if (code === COMMAND_STOP || code === COMMAND_START) {
    actions.stream(code === COMMAND_START);
    return RESULT_DONE;
  }
  if (code === COMMAND_RESTART) {
    actions.restart();
    return RESULT_DONE;
  }
  return RESULT_UNKNOWN_COMMAND;
}
