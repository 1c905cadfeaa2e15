import type { Vec2 } from 'manifold-3d';
import type { ChannelDimensions, PlateDimensions } from '../../sim/sizing/unit/plate-dimensions.ts';
import { type Kit, type Manifold, rod, solidOf } from './kit.ts';
import { alongX } from './plate-part.ts';

/** The wire channel, its floor on the bed, along x; holes in the floor fit the plate's studs. */
export function channelPart(kit: Kit, channel: ChannelDimensions, plate: PlateDimensions): Manifold {
  const { wallMm: wall, floorMm: floor, widthMm, heightMm, lipMm, gapMm } = channel;
  const slope = (channel.innerWidthMm - gapMm) / 2;
  const [left, right] = [wall, widthMm - wall];
  const full = floor + channel.innerHeightMm;
  const profile: Vec2[] = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [right - slope, heightMm],
    [right - slope, heightMm - lipMm],
    [right, full],
    [right, floor],
    [left, floor],
    [left, full],
    [left + slope, heightMm - lipMm],
    [left + slope, heightMm],
    [0, heightMm],
  ];
  return solidOf(
    kit,
    [alongX(kit, profile, 0, channel.lengthMm)],
    plate.stud.atMm.map((x) => rod(kit, channel.studHoleRadiusMm, -1, floor + 0.5, [x, widthMm / 2])),
  );
}
