import { crc32 } from '../../protocol/crc32.ts';
import { createFrameViews, encodeFrame } from '../../protocol/encode.ts';
import {
  createFrame,
  KIND_HAND,
  KIND_HEALTH,
  KIND_RAW,
  KIND_REPLY,
  TIME_STEPS_PER_SECOND,
  TIME_WRAP_STEPS,
} from '../../protocol/frame.ts';
import type { LiveFrame, SessionEvent } from './session-types.ts';

const KIND = { hand: KIND_HAND, raw: KIND_RAW, health: KIND_HEALTH, reply: KIND_REPLY } as const;

/** The 20 bytes that a recorded frame was on the wire. A new array each time. */
export function bytesOfFrame(live: LiveFrame): Uint8Array {
  const frame = createFrame();
  frame.sequence = live.sequence;
  const steps = Math.round(live.deviceS * TIME_STEPS_PER_SECOND);
  frame.timeSteps = ((steps % TIME_WRAP_STEPS) + TIME_WRAP_STEPS) % TIME_WRAP_STEPS;
  frame.values.set(live.values);
  [frame.joystickX, frame.joystickY] = live.joystick;
  frame.buttons = live.buttons;
  frame.rightHand = live.side === 'right';
  frame.kind = KIND[live.kind];
  frame.status = live.status;
  const views = createFrameViews();
  encodeFrame(frame, views, crc32);
  return views.bytes;
}

/** What the board said by an event: a session puts its words in quotation marks. '' where it said nothing. */
export function wordsOfEvent(event: SessionEvent): string {
  if (event.kind !== 'board-text' && event.kind !== 'brown-out' && event.kind !== 'board-started') return '';
  return /"(.*)"/s.exec(event.seen)?.[1] ?? '';
}
