import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { type HostProgram, startHostProgram } from '../board/host-program.ts';
import type { FingerName, Rig } from '../rig/rig.ts';
import { createPacketConsole } from './console.ts';
import type { Fault } from './faults.ts';
import { createWorld, type World } from './world.ts';

export interface DeviceOptions {
  seed: number;
  /** 0 = the parts as the rig file names them; else a draw from their tolerances. */
  draw: number;
  /** Closure of a finger, 0-1, at a device time. */
  motion: (finger: FingerName, timeS: number) => number;
  faults: readonly Fault[];
  /** Everything that the board sends. The bytes may be kept. */
  onBytes: (bytes: Uint8Array, atS: number) => void;
}

/** A whole controller in memory: hand, strings, wiring, board and its very program. */
export interface Device {
  /** Lets time pass, frame by frame. */
  advance(toS: number): void;
  /** Bytes of the host. */
  receive(bytes: Uint8Array): void;
  /** Presses the board's reset button: what it stored stays. */
  restart(): void;
  /** Other faults from now on. */
  setFaults(faults: readonly Fault[]): void;
  nowS(): number;
  /** True closure of each finger of the rig. */
  closures(): number[];
}

/** Between reset and the first frame, s. */
const BOOT_S = 0.35;
/** What the chip's ROM says at a reset; its form from espressif's documents, shortened. */
const BOOT_TEXT = 'ets Jul 29 2019\r\n\r\nrst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)\r\n';

export function createDevice(rig: Rig, plan: BoardPlan, options: DeviceOptions): Device {
  const periodS = 1 / plan.frameRateHz;
  const files = new Map<string, Uint8Array>();
  let world = makeWorld(options.faults);
  let nowS = 0;
  let bootedS = 0;
  let nextTickS = periodS;
  let isTicking = false;
  let wantsRestart = false;
  let program: HostProgram;

  function makeWorld(faults: readonly Fault[]): World {
    const made = createWorld(rig, { ...options, faults });
    return made;
  }

  const send = (bytes: Uint8Array) => options.onBytes(Uint8Array.from(bytes), nowS);
  const packets = createPacketConsole((text) => program.packet(text), send);

  function boot(): void {
    bootedS = nowS;
    isTicking = false;
    program = startHostProgram(plan, {
      analogRead: (pin) => world.read(pin),
      digitalRead: () => 1,
      digitalWrite: (pin, level) => world.write(pin, level),
      getTime: () => nowS - bootedS,
      write: send,
      storage: {
        readArrayBuffer: (name) => files.get(name)?.slice().buffer as ArrayBuffer | undefined,
        write(name, data) {
          files.set(name, Uint8Array.from(data));
          return true;
        },
        getFree: () => 100_000,
      },
      programCrc: () => 0,
      setTicking(on) {
        if (on && !isTicking) nextTickS = nowS + periodS;
        isTicking = on;
      },
      reload: () => {
        wantsRestart = true;
      },
    });
  }

  function restart(): void {
    wantsRestart = false;
    send(new TextEncoder().encode(BOOT_TEXT));
    boot();
    nextTickS = nowS + BOOT_S;
  }

  boot();
  return {
    nowS: () => nowS,
    closures: () => world.closures(),
    advance(toS) {
      while (nextTickS <= toS) {
        nowS = nextTickS;
        nextTickS += periodS;
        world.advance(nowS);
        if (isTicking) program.tick();
        if (wantsRestart) restart();
      }
      nowS = Math.max(nowS, toS);
    },
    receive(bytes) {
      packets.receive(bytes);
      if (wantsRestart) restart();
    },
    restart,
    setFaults(faults) {
      world = makeWorld(faults);
      world.advance(nowS);
    },
  };
}
