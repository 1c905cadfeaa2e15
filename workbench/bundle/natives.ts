/** The interpreter's functions and arrays that a program uses, as text. */
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { initialEnds } from '../../firmware/main/initial-state.ts';
import type { Layout } from '../../firmware/main/layout.ts';
import { CHECKED_BYTES, FRAME_BYTES } from '../../protocol/frame.ts';
import { exactLiteral } from '../../specialise/literals.ts';
import { Native, type Tree } from '../../specialise/tree.ts';

export interface Natives {
  /** In the order in which they are made. */
  all: Native[];
  /** The program's `io`. */
  io: { [key: string]: Tree };
}

/** The object that stands for the console's port. */
export const CONSOLE = 'global[E.getConsole()]';

/** @param device the object that hand frames are written to, as text */
export function nativesOf(plan: BoardPlan, layout: Layout, device: string): Natives {
  const all: Native[] = [];
  const native = (name: string, text: string): Native => {
    const made = new Native(name, text);
    all.push(made);
    return made;
  };
  const part = (array: string, [start, end]: [number, number]) => `${array}.subarray(${start},${end})`;
  const singles = (numbers: number[]) =>
    `new Float32Array([${numbers.map((n) => exactLiteral(n)).join(',')}])`;
  const fingers = plan.fingers.length;

  native('buffer', `new ArrayBuffer(${FRAME_BYTES})`);
  native('otherBuffer', `new ArrayBuffer(${FRAME_BYTES})`);
  const bytes = native('bytes', 'new Uint8Array(#buffer)');
  const words = native('words', 'new Uint16Array(#buffer)');
  const otherBytes = native('otherBytes', 'new Uint8Array(#otherBuffer)');
  const otherWords = native('otherWords', 'new Uint16Array(#otherBuffer)');
  native('readPins', `new Uint8Array([${layout.pins.join(',')}])`);
  const readings = native('readings', `new Float32Array(${layout.pins.length})`);
  const mapInto = (span: [number, number]) =>
    `E.mapInPlace.bind(E,${part('#readPins', span)},${part('#readings', span)},analogRead)`;
  const acquire = native(
    'acquire',
    layout.directStart === 0
      ? 'E.mapInPlace.bind(E,#readPins,#readings,analogRead)'
      : mapInto([layout.directStart, layout.pins.length]),
  );
  const isMultiplexed = plan.selectPins.length > 0;
  const listed = (pins: number[]) => `[${[...pins].reverse().join(',')}]`;
  return {
    all,
    io: {
      acquire,
      acquireChannel: isMultiplexed
        ? layout.spans.map((span, i) => native(`acquire${i}`, mapInto(span)))
        : [],
      // the interpreter takes the first pin of a list for the highest bit
      select: native('select', `digitalWrite.bind(null,${listed(plan.selectPins)})`),
      sums: plan.fingers.map((_, i) =>
        native(`sum${i}`, `E.sum.bind(E,${part('#readings', layout.sums[i]!)})`),
      ),
      railSum: native('railSum', `E.sum.bind(E,${part('#readings', layout.railSum)})`),
      readings,
      sum: native('sum', 'E.sum'),
      read: native('read', 'analogRead'),
      buttons: native('buttons', `digitalRead.bind(null,${listed(plan.buttonPins)})`),
      now: native('now', 'getTime'),
      bytes,
      words,
      crc: native('crc', `E.CRC32.bind(E,new Uint8Array(#buffer,0,${CHECKED_BYTES}))`),
      send: native('send', `${device}.write.bind(${device},#bytes)`),
      otherBytes,
      otherWords,
      otherChecked: native('otherChecked', `new Uint8Array(#otherBuffer,0,${CHECKED_BYTES})`),
      crc32: native('crc32', 'E.CRC32'),
      write: native('write', `${CONSOLE}.write.bind(${CONSOLE})`),
      writeLink: native('writeLink', `${device}.write.bind(${device})`),
      lastSums: native('lastSums', `new Float32Array(${fingers})`),
      sameCounts: native('sameCounts', `new Uint8Array(${fingers})`),
      ends: native('ends', singles(initialEnds(plan))),
      captured: native('captured', `new Float32Array(${3 * fingers})`),
    },
  };
}
