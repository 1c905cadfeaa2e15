import type { Finger } from '../../rig/rig.ts';
import { MNM_PER_GF_CM } from '../../spool/force.ts';

/** Spools are tried up to so many times the radius. */
const LARGEST_SPOOL = 2;
/** Halvings on the way to the largest value that helps. */
const HALVINGS = 20;

/**
 * What alone would make room between two limits that clash.
 * @param gap room between the limits of a changed finger, mN·m; < 0 where they clash
 * @returns words of a cure, each with the value that just does
 */
export function clashCure(finger: Finger, gap: (changed: Finger) => number): string {
  const cures: string[] = [];
  const { potentiometer: pot, spring, spoolRadiusMm: radiusMm } = finger;
  const easier = largestShare((share) =>
    gap({ ...finger, potentiometer: { ...pot, dragMNm: share * pot.dragMNm } }),
  );
  if (easier !== undefined && pot.dragMNm > 0) {
    const dragMNm = easier * pot.dragMNm;
    cures.push(
      `a potentiometer that turns with at most ${floor(dragMNm, 2)} mN·m (${floor(dragMNm / MNM_PER_GF_CM, 1)} gf·cm)`,
    );
  }
  const smoother = largestShare((share) => gap(withFriction(finger, share)));
  if (smoother !== undefined && finger.guides.length > 0) {
    cures.push(`guides of at most ${floor(100 * smoother, 0)} % of this friction or bend`);
  }
  const flatter = largestShare((share) =>
    gap({ ...finger, spring: { ...spring, perTurnMNm: share * spring.perTurnMNm } }),
  );
  if (flatter !== undefined && spring.perTurnMNm > 0) {
    cures.push(
      `a spring that adds at most ${floor(flatter * spring.perTurnMNm, 2)} mN·m a turn, wound up further`,
    );
  }
  const larger = leastRadiusMm(radiusMm, (mm) => gap({ ...finger, spoolRadiusMm: mm }) >= 0);
  if (larger !== undefined) cures.push(`a spool of ${larger} mm radius`);
  if (cures.length > 0) return cures.join(', or ');
  return 'no single change does: take a potentiometer that turns more easily, guides that rub less and a larger spool together';
}

/** Largest share of a value, below all of it, that leaves room; undefined when not even none of it does. */
function largestShare(gapAt: (share: number) => number): number | undefined {
  if (gapAt(0) < 0) return undefined;
  let good = 0;
  let bad = 1;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (gapAt(middle) >= 0) good = middle;
    else bad = middle;
  }
  return good;
}

/** Smallest larger radius that does, looked for by the millimetre and then by the tenth. */
function leastRadiusMm(radiusMm: number, does: (mm: number) => boolean): number | undefined {
  const most = LARGEST_SPOOL * radiusMm;
  let wholeMm = Math.ceil(radiusMm);
  while (wholeMm <= most && !does(wholeMm)) wholeMm += 1;
  if (wholeMm > most) return undefined;
  let tenths = 10 * wholeMm;
  while (tenths - 1 > 10 * radiusMm && does((tenths - 1) / 10)) tenths -= 1;
  return tenths / 10;
}

function withFriction(finger: Finger, share: number): Finger {
  return {
    ...finger,
    guides: finger.guides.map((guide) => ({ ...guide, friction: share * guide.friction })),
  };
}

/** Rounded to the safe side, without padding zeros. */
function floor(value: number, decimals: number): number {
  return Math.floor(value * 10 ** decimals) / 10 ** decimals;
}
