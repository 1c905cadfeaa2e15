import { crc32 } from '../../../protocol/crc32.ts';
import { createFrameViews, encodeFrame } from '../../../protocol/encode.ts';
import { createFrame, KIND_HAND, KIND_HEALTH, KIND_REPLY } from '../../../protocol/frame.ts';

/** Bytes of one frame; what is left out is that of a resting right hand. */
export function frameBytes(
  sequence: number,
  timeSteps: number,
  more: { values?: number[]; kind?: number; rightHand?: boolean; buttons?: number; status?: number } = {},
): Uint8Array {
  const frame = createFrame();
  frame.sequence = sequence & 255;
  frame.timeSteps = timeSteps & 65_535;
  frame.values.set(more.values ?? [6553, 20_000, 30_000, 40_000, 58_982]);
  [frame.joystickX, frame.joystickY] = [128, 127];
  frame.buttons = more.buttons ?? 0;
  frame.rightHand = more.rightHand ?? true;
  frame.kind = more.kind ?? KIND_HAND;
  frame.status = more.status ?? 0;
  const views = createFrameViews();
  encodeFrame(frame, views, crc32);
  return views.bytes;
}

export interface BoardOptions {
  rateHz?: number;
  /** The board's clock against the host's: 100 = 100 parts in a million faster. */
  ppm?: number;
  rightHand?: boolean;
  programId?: number;
  settingsId?: number;
  /** Answers commands. */
  answers?: boolean;
}

/**
 * A board that sends frames by a clock of its own: a far end for tests. Its time is moved by `advance`, on the host's
 * clock.
 */
export function createStreamingBoard(send: (bytes: Uint8Array) => void, options: BoardOptions = {}) {
  const periodS = 1 / (options.rateHz ?? 100);
  const fast = 1 + (options.ppm ?? 0) * 1e-6;
  let zeroS = 0;
  let frameNumber = 1;
  let sequence = 0;
  let sent = 0;
  const board = {
    isOn: true,
    /** Frames that the line swallows from now on. */
    drop: 0,
    /** Commands that came, as texts. */
    commands: [] as string[],
    sent: () => sent,
    /** Lets the board live up to a moment of the host's clock. */
    advance(toS: number): void {
      for (;;) {
        const deviceS = frameNumber * periodS;
        if (zeroS + deviceS / fast > toS) return;
        frameNumber++;
        if (!board.isOn) continue;
        const steps = Math.floor(deviceS * 4000 + 1e-6);
        const isHealth = frameNumber % 100 === 0;
        const bytes = frameBytes(sequence++, steps, {
          rightHand: options.rightHand ?? true,
          ...(isHealth
            ? { kind: KIND_HEALTH, values: [65_535, 65_535, 0, 0, 256 + (options.programId ?? 7)] }
            : { values: [0, 1, 2, 3, 4].map((i) => 6553 + ((frameNumber * (i + 1) * 37) % 50_000)) }),
        });
        if (board.drop > 0) {
          board.drop--;
          continue;
        }
        sent++;
        send(bytes);
      }
    },
    /** Starts anew at a moment of the host's clock, first frame after `bootS`. */
    restart(atS: number, bootS: number): void {
      zeroS = atS + bootS;
      frameNumber = 1;
      sequence = 0;
    },
    receive(bytes: Uint8Array): void {
      const text = /"t":"([0-9a-f]{34})"/.exec(Buffer.from(bytes).toString('latin1'))?.[1];
      if (text === undefined) return;
      board.commands.push(text);
      if (options.answers === false) return;
      const [tag, code, subject] = [text.slice(0, 4), text.slice(4, 6), text.slice(6, 8)].map((digits) =>
        Number.parseInt(digits, 16),
      );
      const answer = subject === 1 ? (options.settingsId ?? 0) : 256 + (options.programId ?? 7);
      const values = [code!, 0, answer % 65_536, Math.floor(answer / 65_536), tag!];
      send(frameBytes(sequence++, Math.floor(frameNumber * periodS * 4000), { kind: KIND_REPLY, values }));
      sent++;
    },
  };
  return board;
}
