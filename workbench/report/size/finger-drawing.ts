import { fullFlexionDeg } from '../../../sim/hand/closure.ts';
import { phalanges } from '../../../sim/hand/phalanges.ts';
import { bonesOnString, type JointArc, stringPath } from '../../../sim/hand/string-path.ts';
import type { Finger } from '../../../sim/rig/rig.ts';
import { coordinate, element, label, line } from '../svg.ts';

/** From finger's millimetres, knuckle at the origin and up positive, to the drawing. */
export interface Placing {
  x: number;
  y: number;
  perMm: number;
}

/** Half thickness of a finger for the drawing, as a share of the moment arm at the joint. */
const FLESH = 0.72;

/**
 * A finger from the side, straight (faint) and closed, with joints, guides and string, to scale.
 * @param scale of the hand, 1 = the mean
 * @param backMm from the first joint back to where the string meets the spool
 */
export function fingerDrawing(finger: Finger, scale: number, backMm: number, at: Placing): string[] {
  const bones = bonesOnString(phalanges(finger.name, scale));
  const closed = fullFlexionDeg(finger.name);
  const poses = [
    { angles: [0, 0, 0], kind: 'is-open' },
    { angles: closed, kind: 'is-closed' },
  ];
  const arms = finger.momentArmsMm;
  const parts: string[] = [];
  for (const { angles, kind } of poses) {
    const path = stringPath(bones, angles, arms);
    const points = [...path.joints, path.tip].map(({ forwardMm, upMm }) => place(forwardMm, upMm, at));
    // The flesh as strokes that get thinner towards the tip.
    path.joints.forEach((joint, index) => {
      const [from, to] = [points[index]!, points[index + 1]!];
      const width = 2 * FLESH * joint.armMm * at.perMm;
      parts.push(
        element('line', {
          x1: from.x,
          y1: from.y,
          x2: to.x,
          y2: to.y,
          'stroke-width': width,
          class: `flesh ${kind}`,
        }),
      );
    });
    for (const joint of points.slice(0, 3)) {
      parts.push(element('circle', { cx: joint.x, cy: joint.y, r: 2.4, class: `joint ${kind}` }));
    }
    parts.push(element('path', { d: stringLine(path, backMm, at), class: `string ${kind}` }));
    for (const joint of path.joints) parts.push(...guideMarks(joint, kind, at));
  }
  return parts;
}

function place(forwardMm: number, upMm: number, at: Placing): { x: number; y: number } {
  return { x: at.x + forwardMm * at.perMm, y: at.y - upMm * at.perMm };
}

/** Point on a joint's arc, where the string leaves in a direction. */
function onArc(joint: JointArc, rad: number, at: Placing): { x: number; y: number } {
  return place(joint.forwardMm + joint.armMm * Math.sin(rad), joint.upMm + joint.armMm * Math.cos(rad), at);
}

function stringLine(path: ReturnType<typeof stringPath>, backMm: number, at: Placing): string {
  const [first] = path.joints;
  const start = place(-backMm, first!.armMm, at);
  let d = `M${coordinate(start.x)} ${coordinate(start.y)}`;
  for (const joint of path.joints) {
    const [from, to] = [onArc(joint, joint.fromRad, at), onArc(joint, joint.toRad, at)];
    const radius = coordinate(joint.armMm * at.perMm);
    d += `L${coordinate(from.x)} ${coordinate(from.y)}`;
    if (joint.toRad > joint.fromRad)
      d += `A${radius} ${radius} 0 0 1 ${coordinate(to.x)} ${coordinate(to.y)}`;
  }
  const last = path.joints.at(-1)!;
  const { forwardMm, upMm, towardsRad } = path.tip;
  const end = place(
    forwardMm - 3 * Math.cos(towardsRad) + FLESH * last.armMm * Math.sin(towardsRad),
    upMm + 3 * Math.sin(towardsRad) + FLESH * last.armMm * Math.cos(towardsRad),
    at,
  );
  return `${d}L${coordinate(end.x)} ${coordinate(end.y)}`;
}

/** A guide stands on the bone on either side of a joint, as high as the moment arm. */
function guideMarks(joint: JointArc, kind: string, at: Placing): string[] {
  return (joint.fromRad === joint.toRad ? [joint.toRad] : [joint.fromRad, joint.toRad]).map((rad) => {
    const top = onArc(joint, rad, at);
    const foot = onArc({ ...joint, armMm: joint.armMm * FLESH }, rad, at);
    return element('line', { x1: foot.x, y1: foot.y, x2: top.x, y2: top.y, class: `guide ${kind}` });
  });
}

/** A bar of 10 mm that tells the scale. */
export function scaleBar(x: number, y: number, perMm: number): string[] {
  const end = x + 10 * perMm;
  return [
    line(x, y, end, y, 'axis'),
    line(x, y - 4, x, y + 4, 'axis'),
    line(end, y - 4, end, y + 4, 'axis'),
    label(end + 6, y + 4, '10 mm', { class: 'tick' }),
  ];
}
