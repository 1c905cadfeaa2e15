/** The board's program on the host: the same functions, called as they are, with a simulated board around them. */

import type { BoardDevice } from '../../firmware/main/board-device.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { beginCapture, endCapture } from '../../firmware/main/capture-hand.ts';
import { createCommandState } from '../../firmware/main/commands.ts';
import type { HandRoutines } from '../../firmware/main/hand-routines.ts';
import { initialEnds, initialState } from '../../firmware/main/initial-state.ts';
import { buildOf, type Layout, layoutOf } from '../../firmware/main/layout.ts';
import { getNumber, setNumber, zero } from '../../firmware/main/live-numbers.ts';
import { selectBit } from '../../firmware/main/multiplexer.ts';
import { onPacket } from '../../firmware/main/on-packet.ts';
import type { BoardIo, Program } from '../../firmware/main/program.ts';
import * as routines from '../../firmware/main/routines.ts';
import { startUp } from '../../firmware/main/start-up.ts';
import { countError, tick } from '../../firmware/main/tick.ts';
import { slotStorageOf } from '../../firmware/storage/slot-storage.ts';
import { textCrc32 } from '../../protocol/command-packet.ts';
import { crc32 } from '../../protocol/crc32.ts';
import { createFrameViews } from '../../protocol/encode.ts';
import type { BoardHardware } from './board-hardware.ts';

export interface HostProgram {
  /** Its state, for a look inside. */
  program: Program;
  /** One step of the frame timer. */
  tick: () => void;
  /** A packet from the console. @param text its `t` */
  packet: (text: unknown) => void;
}

/** Starts the program of a plan on a simulated board. */
export function startHostProgram(plan: BoardPlan, hardware: BoardHardware): HostProgram {
  const layout = layoutOf(plan);
  const program: Program = {
    build: buildOf(plan, layout),
    io: hostIo(plan, layout, hardware),
    ...initialState(plan),
  };
  const hand = handRoutines(program);
  const device = hostDevice(hardware);
  const commands = createCommandState();
  startUp(hand, device, plan.facts);
  return {
    program,
    tick: () => tick(program),
    packet: (text) => onPacket(text, commands, hand, device, plan.facts),
  };
}

function handRoutines(p: Program): HandRoutines {
  return {
    setNumber: (slot, index, value) => setNumber(p, slot, index, value),
    getNumber: (slot, index) => getNumber(p, slot, index),
    counter: (which) => routines.counter(p, which),
    raw: (slot) => routines.raw(p, slot),
    beginCapture: () => beginCapture(p),
    endCapture: () => endCapture(p),
    isCapturing: () => routines.isCapturing(p),
    zero: (slot) => zero(p, slot),
    takeEnds: (slot, open, closed) => routines.takeEnds(p, slot, open, closed),
    captured: () => routines.captured(p),
    ends: () => routines.ends(p),
    markStored: (bits) => routines.markStored(p, bits),
    countError: () => countError(p),
    begin: () => routines.begin(p),
    refresh: () => routines.refresh(p),
    reply: (command, result, answer, tag) => routines.reply(p, command, result, answer, tag),
  };
}

function hostDevice(hardware: BoardHardware): BoardDevice {
  return {
    storage: slotStorageOf(hardware.storage),
    crc32,
    textCrc: textCrc32,
    programCrc: hardware.programCrc,
    startTicks: () => hardware.setTicking(true),
    stopTicks: () => hardware.setTicking(false),
    reload: hardware.reload,
  };
}

/** Sum in double precision, first element first, as the interpreter's native sum does. */
function sumOf(view: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < view.length; i++) sum += view[i];
  return sum;
}

function hostIo(plan: BoardPlan, layout: Layout, hardware: BoardHardware): BoardIo {
  const readings = new Float32Array(layout.pins.length);
  const part = ([start, end]: [number, number]) => readings.subarray(start, end);
  const acquireFrom = (start: number, end: number) => () => {
    for (let i = start; i < end; i++) readings[i] = hardware.analogRead(layout.pins[i]);
  };
  const views = layout.sums.map(part);
  const rail = part(layout.railSum);
  const hand = createFrameViews();
  const other = createFrameViews();
  return {
    acquire: acquireFrom(layout.directStart, layout.pins.length),
    acquireChannel: layout.spans.map(([start, end]) => acquireFrom(start, end)),
    select: (channel) => {
      plan.selectPins.forEach((pin, line) => {
        hardware.digitalWrite(pin, selectBit(channel, line));
      });
    },
    sums: views.map((view) => () => sumOf(view)),
    railSum: () => sumOf(rail),
    readings,
    sum: sumOf,
    read: hardware.analogRead,
    buttons: () => plan.buttonPins.reduce((bits, pin, i) => bits | (hardware.digitalRead(pin) << i), 0),
    now: hardware.getTime,
    bytes: hand.bytes,
    words: hand.words,
    crc: () => crc32(hand.checked),
    send: () => hardware.write(hand.bytes),
    otherBytes: other.bytes,
    otherWords: other.words,
    otherChecked: other.checked,
    crc32,
    write: hardware.write,
    writeLink: hardware.write,
    lastSums: new Float32Array(plan.fingers.length),
    sameCounts: new Uint8Array(plan.fingers.length),
    ends: Float32Array.from(initialEnds(plan)),
    captured: new Float32Array(3 * plan.fingers.length),
  };
}
