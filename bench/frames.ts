import { crc32 } from '../protocol/crc32.ts';
import { createFrameViews, encodeFrame } from '../protocol/encode.ts';
import { createFrame, KIND_HAND } from '../protocol/frame.ts';
import { createReassembler } from '../protocol/reassemble.ts';
import { createReceiver } from '../protocol/receive.ts';
import { FrameParser } from './baseline/frame-parser.ts';
import { Random } from './baseline/random.ts';
import { measure, ratios } from './measure.ts';
import type { Figure } from './print.ts';

const FRAMES = 50_000;
const PERIOD_S = 0.01;
const PASSES = 10;
const BASELINE_PASSES = 2;

/** Frames found and taken apart a second, in a stream with console text, noise and damaged frames. */
export async function frames(repetitions: number): Promise<Figure[]> {
  const chunks = cutUp(streamWithGarbage(new Random(7)), new Random(8));
  const good = (count: number) => {
    if (count !== expected) throw new Error(`frames: ${count} decoded, expected ${expected} as before`);
    return count;
  };
  const reassemble = () => {
    let count = 0;
    const stream = createReassembler(() => {
      count++;
    });
    for (const chunk of chunks) stream.push(chunk);
    return count;
  };
  const receive = () => {
    let count = 0;
    let bytes = 0;
    const receiver = createReceiver(PERIOD_S, () => {
      count++;
    });
    for (const chunk of chunks) {
      bytes += chunk.length;
      receiver.push(chunk, (bytes / 20) * PERIOD_S);
    }
    return count;
  };
  const parse = () => {
    let count = 0;
    const parser = new FrameParser(() => {
      count++;
    });
    for (const chunk of chunks) parser.push(chunk);
    return count;
  };
  const expected = reassemble();
  const passes = (count: number, pass: () => number) => () => {
    let sum = 0;
    for (let i = 0; i < count; i++) sum += good(pass());
    return sum;
  };
  const rates = await measure(
    [
      { impl: 'product, reassembler', run: passes(PASSES, reassemble) },
      { impl: 'product, receiver', run: passes(PASSES, receive) },
      { impl: 'baseline', run: passes(BASELINE_PASSES, parse) },
    ],
    repetitions,
  );
  const figures = [...rates].map(([impl, values]) => ({ bench: 'frames', impl, values, unit: 'frames/s' }));
  const compared = ratios(rates, 'product, receiver', 'baseline');
  return [
    ...figures,
    { bench: 'frames', impl: 'product, receiver / baseline', values: compared, unit: 'times' },
  ];
}

/** One frame in 50 is damaged, one in 50 is followed by console text, one in 50 by noise. */
function streamWithGarbage(random: Random): Uint8Array {
  const bytes: number[] = [];
  const frame = createFrame();
  const views = createFrameViews();
  const text = Array.from('>echo "still here"\r\n', (c) => c.charCodeAt(0));
  for (let i = 0; i < FRAMES; i++) {
    frame.sequence = i & 255;
    frame.timeSteps = (i * 40) & 65535;
    frame.kind = KIND_HAND;
    for (let v = 0; v < 5; v++) frame.values[v] = 6553 + Math.floor(52429 * random.uniform());
    encodeFrame(frame, views, crc32);
    const sent = [...views.bytes];
    const fate = Math.floor(50 * random.uniform());
    if (fate === 0) sent[Math.floor(20 * random.uniform())] ^= 1 + Math.floor(255 * random.uniform());
    bytes.push(...sent);
    if (fate === 1) bytes.push(...text);
    if (fate === 2) for (let n = 0; n < 10; n++) bytes.push(Math.floor(256 * random.uniform()));
  }
  return Uint8Array.from(bytes);
}

/** Chunks of 1 to 512 bytes, as a serial port hands them on. */
function cutUp(stream: Uint8Array, random: Random): Uint8Array[] {
  const chunks: Uint8Array[] = [];
  for (let at = 0; at < stream.length; ) {
    const length = 1 + Math.floor(512 * random.uniform());
    chunks.push(stream.slice(at, at + length));
    at += length;
  }
  return chunks;
}
