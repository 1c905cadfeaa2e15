import { type Frame, KIND_HAND, KIND_HEALTH, KIND_RAW } from '../../protocol/frame.ts';
import type { LiveFrame } from './session-types.ts';

/** A frame of the wire as a session gives it on. */
export function liveFrame(frame: Frame, deviceS: number, hostS: number, step: number): LiveFrame {
  return {
    kind: kindOf(frame.kind),
    side: frame.rightHand ? 'right' : 'left',
    sequence: frame.sequence,
    step,
    deviceS,
    hostS,
    values: Array.from(frame.values),
    joystick: [frame.joystickX, frame.joystickY],
    buttons: frame.buttons,
    status: frame.status,
  };
}

function kindOf(kind: number): LiveFrame['kind'] {
  if (kind === KIND_HAND) return 'hand';
  if (kind === KIND_RAW) return 'raw';
  return kind === KIND_HEALTH ? 'health' : 'reply';
}
