import {
  buildCalibration,
  type Calibration,
  type CalibrationPoint,
} from '../../firmware/chain/calibration-curve.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import { PROTOCOL_VERSION } from '../../protocol/frame.ts';
import { TautlineError } from '../../sim/errors.ts';
import type { FingerName, Rig } from '../../sim/rig/rig.ts';
import { settingsIdOf } from '../bundle/ids.ts';
import type { CapturedFinger } from './captured-ends.ts';

/** First thing that a profile says. */
export const PROFILE_FORMAT = 'tautline profile';
/** Version of its form. */
export const PROFILE_VERSION = 1;

/** What one wearer's hand showed on one build. Kept by the host; the board keeps the ends of its own. */
export interface Profile {
  format: typeof PROFILE_FORMAT;
  formatVersion: number;
  wearer: string;
  rig: string;
  side: 'left' | 'right';
  /** Of all that the ends depend on: pins, parts, supply, hand. A program with other filters has the same one. */
  settingsId: number;
  /** Program that ran during the capture; null where it is not known. */
  programId: number | null;
  /** Date and time, ISO 8601. */
  when: string;
  /** Versions of tautline and of the wire format. */
  tautline: string;
  protocol: number;
  fingers: ProfileFinger[];
}

export interface ProfileFinger {
  name: FingerName;
  /** Mean readings, 0-1. */
  open: number;
  closed: number;
  /** Readings and closures from open to closed, both ends included: two or more. */
  points: CalibrationPoint[];
}

export function makeProfile(
  rig: Rig,
  captured: readonly CapturedFinger[],
  facts: { wearer: string; programId: number | undefined; when: string; tautline: string },
): Profile {
  return {
    format: PROFILE_FORMAT,
    formatVersion: PROFILE_VERSION,
    wearer: facts.wearer.trim(),
    rig: rig.name,
    side: rig.hand.side,
    settingsId: settingsIdOf(rig),
    programId: facts.programId ?? null,
    when: facts.when,
    tautline: facts.tautline,
    protocol: PROTOCOL_VERSION,
    fingers: captured.map(({ name, ends, points }) => ({
      name: name as FingerName,
      open: ends.open,
      closed: ends.closed,
      points: points.map(({ x, closure }) => ({ x, closure })),
    })),
  };
}

/** The profile as it is kept. */
export function profileText(profile: Profile): string {
  return `${JSON.stringify(profile, null, 2)}\n`;
}

/**
 * Refuses a profile of another build: its ends mean nothing on this one.
 * @throws TautlineError `profile/other-build`
 */
export function checkProfile(profile: Profile, rig: Rig): void {
  const id = settingsIdOf(rig);
  const lacking = rig.fingers.filter(({ name }) => !profile.fingers.some((finger) => finger.name === name));
  if (profile.settingsId === id && profile.side === rig.hand.side && lacking.length === 0) return;
  const seen =
    profile.side !== rig.hand.side
      ? `was captured on a ${profile.side} hand, ${rig.name} is a ${rig.hand.side} one`
      : profile.settingsId === id
        ? `has no ${lacking.map(({ name }) => name).join(', ')}, which ${rig.name} wires`
        : `was captured on the build ${profile.settingsId} (${profile.rig}), ${rig.name} is the build ${id}: pins, parts, supply or hand differ`;
  throw new TautlineError('profile/other-build', `The profile of ${profile.wearer} ${seen}.`, {
    detail: `Expected a profile of the build ${id}. Capture ${profile.wearer}'s ends on this build, or open the rig file that the profile was made with.`,
  });
}

/**
 * Puts a profile among the others. One of the same wearer and build is never replaced unasked.
 * @param isReplacing whether the user said yes to that
 * @returns the new list; the old one stays as it is
 * @throws TautlineError `profile/exists`
 */
export function keepProfile(
  profiles: readonly Profile[],
  profile: Profile,
  isReplacing: boolean,
): readonly Profile[] {
  if (profile.wearer === '') {
    throw new TautlineError('profile/no-name', 'The profile has no wearer.', {
      detail: 'Expected a name. Say whose hand it was.',
    });
  }
  const isSame = (other: Profile) =>
    wearerKey(other.wearer) === wearerKey(profile.wearer) && other.settingsId === profile.settingsId;
  const old = profiles.find(isSame);
  if (old && !isReplacing) {
    throw new TautlineError(
      'profile/exists',
      `There is a profile of ${old.wearer} already, of ${old.when}, for ${old.rig}.`,
      { detail: 'It stays as it is. Say yes to replace it, or give this one another name.' },
    );
  }
  return [...profiles.filter((other) => !isSame(other)), profile];
}

/** Names that look the same are the same. */
function wearerKey(name: string): string {
  return name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
}

/** How the ends that a board holds compare with a profile's. */
export interface ProfileComparison {
  /** Whether all ends are nearly the same. */
  isSame: boolean;
  /** A sentence for each finger that differs, and one for the whole. */
  words: string[];
}

/** Most that an end may be off and still count as the same, share of the span: the board takes what is farthest. Assumed. */
const MOST_APART = 0.05;

/** @param board ends that the board holds, in the order of the rig's fingers */
export function compareWithBoard(profile: Profile, rig: Rig, board: readonly Ends[]): ProfileComparison {
  checkProfile(profile, rig);
  const words = rig.fingers.flatMap(({ name }, i) => {
    const own = profile.fingers.find((finger) => finger.name === name)!;
    const span = own.closed - own.open;
    const off = (['open', 'closed'] as const).flatMap((pose) => {
      const apart = (board[i]![pose] - own[pose]) / span;
      if (Math.abs(apart) <= MOST_APART) return [];
      const side = apart > 0 ? 'farther closed' : 'farther open';
      return `its ${pose} end lies ${(100 * Math.abs(apart)).toFixed(0)} % of the span ${side}`;
    });
    return off.length === 0 ? [] : `${name}: on the board ${off.join(', ')} than in the profile.`;
  });
  const last =
    words.length === 0
      ? `The board holds the ends of ${profile.wearer}.`
      : `The board holds other ends than ${profile.wearer}'s: capture anew, or let the host correct it by the profile.`;
  return { isSame: words.length === 0, words: [...words, last] };
}

/**
 * The wearer's curve from the board's travel to closure, whatever ends the board holds.
 * @param board ends that the board holds of this finger
 */
export function curveOfProfile(finger: ProfileFinger, board: Ends): Calibration {
  const travelOf = (reading: number) => (reading - board.open) / (board.closed - board.open);
  return buildCalibration(
    finger.points.map(({ x, closure }) => ({ x: travelOf(x), closure })),
    {},
  );
}
