import type { Rig } from '../rig/rig.ts';

/** Which channel of a recording stands for a finger, and whether its name says so. */
export interface RestChannel {
  channel: number;
  named: boolean;
}

/**
 * Matches the channels of a recording to the fingers of a rig: by name, else by position, over again if there are
 * too few.
 */
export function restChannels(channelNames: string[], rig: Pick<Rig, 'fingers'>): RestChannel[] {
  const names = channelNames.map((name) => name.trim().toLowerCase());
  return rig.fingers.map(({ name }, i) => {
    const channel = names.indexOf(name);
    return channel >= 0 ? { channel, named: true } : { channel: i % names.length, named: false };
  });
}
