import type { Rig } from '../../sim/rig/rig.ts';
import { settingsIdOf } from '../bundle/ids.ts';

/** The rate of a board's console, bits a second. */
const CONSOLE_BAUD = 115_200;

/** What a rig says of the line over which its frames come. */
export interface RigLine {
  baud: number;
  framePeriodS: number;
  settingsId: number;
  /** Frames come on a port of their own, which takes no commands. */
  isFramesOnly: boolean;
}

export function lineOfRig(rig: Rig): RigLine {
  return {
    baud: rig.frameLink?.baud ?? CONSOLE_BAUD,
    framePeriodS: 1 / rig.frameRateHz,
    settingsId: settingsIdOf(rig),
    isFramesOnly: rig.frameLink !== undefined,
  };
}
