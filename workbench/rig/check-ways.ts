import type { Finger } from '../../sim/rig/rig.ts';
import {
  MOST_STRIP_STRESS_MPA,
  springTorqueMNm,
  stripStressMPa,
  turnsInBarrel,
} from '../../sim/spool/spring.ts';
import { spoolTurnDeg } from '../../sim/spool/winding.ts';
import { fullExcursionMm } from '../../sim/string/excursion.ts';
import type { Findings } from './findings.ts';
import type { FingerBlock } from './finger-schema.ts';
import type { RigBlock } from './rig-schema.ts';
import type { YamlPath } from './yaml-source.ts';

const round = (value: number, digits = 2) => String(Number(value.toFixed(digits)));

/** Finds values that one block gives in two ways, of which one would silently win. */
export function checkWays(finger: Finger, block: RigBlock, findings: Findings): void {
  const { name } = finger;
  const own = block.fingers?.[name];
  const each = block.eachFinger;
  checkJoints(['fingers', name], own, findings);
  checkJoints(['eachFinger'], each, findings);
  checkStrip(['fingers', name, 'spring'], finger, own?.spring, each?.spring, findings);
  checkStrip(['eachFinger', 'spring'], finger, each?.spring, own?.spring, findings);
}

function checkJoints(path: YamlPath, part: FingerBlock | undefined, findings: Findings): void {
  if (!part?.joints || !part.momentArms) return;
  findings.error(
    findings.place([...path, 'joints']),
    `${path.join('.')} gives both joints and momentArms`,
    'either momentArms, or joints with circumferences and guideHeight',
    'remove one of the two',
  );
}

function checkStrip(
  path: YamlPath,
  finger: Finger,
  part: FingerBlock['spring'],
  other: FingerBlock['spring'],
  findings: Findings,
): void {
  const where = path.join('.');
  if (part?.strip && part.pulls) {
    findings.error(
      findings.place([...path, 'strip']),
      `${where} gives both strip and pulls`,
      'either a strip with its preload, or pulls',
      'remove the strip: what was measured counts',
    );
  }
  const { name } = finger;
  const isCut = (key: string) => findings.isFingerCut(name, ['spring', key]);
  const isTorque = part?.openTorque !== undefined || part?.perTurn !== undefined;
  if (part?.strip && isTorque) {
    findings.error(
      findings.place([...path, 'strip']),
      `${where} gives both strip and torques`,
      'either a strip with its preload, or openTorque and perTurn',
      'remove one of the two',
    );
  } else if (part?.preload !== undefined && isTorque) {
    findings.error(
      findings.place([...path, 'preload']),
      `${where} gives both preload and torques`,
      'either a strip with its preload, or openTorque and perTurn',
      'remove one of the two',
    );
  }
  // What could not be read is there all the same.
  if (isCut('strip') || isCut('preload')) return;
  if (part?.preload !== undefined && !part.strip && !other?.strip) {
    findings.error(
      findings.place([...path, 'preload']),
      `${where} has a preload but no strip`,
      'the strip that is wound up by so many turns',
      'add "strip: {width: 5 mm, thickness: 0.15 mm, length: 1 m}", or write openTorque and perTurn',
    );
  }
  if (part?.strip && part.preload === undefined && other?.preload === undefined) {
    findings.error(
      findings.place([...path, 'strip']),
      `${where} has a strip but no preload`,
      'the turns by which it is wound up with the finger open',
      'add "preload: 3 turns" beside "strip"',
    );
  }
}

/** A strip that is bent too far, or that runs out of turns before the finger is closed. */
export function checkStripLimits(finger: Finger, scale: number, findings: Findings): void {
  const { name, spring } = finger;
  if (!spring.strip || findings.isFingerCut(name, ['spring'], ['spool'], ['momentArms'], ['joints'])) return;
  const { widthMm, thicknessMm, lengthMm, barrel } = spring.strip;
  const strokeMm = fullExcursionMm(finger, 0) * scale;
  const turns = spoolTurnDeg(strokeMm, finger.spoolRadiusMm, finger.stringDiameterMm) / 360;
  const closedMNm = springTorqueMNm(turns, spring.openTorqueMNm, spring.perTurnMNm, 0, 0);
  const stressMPa = stripStressMPa(closedMNm, widthMm, thicknessMm);
  const place = () => findings.fingerPlace(name, ['spring', 'strip'], ['spring', 'preload']);
  if (stressMPa > MOST_STRIP_STRESS_MPA) {
    findings.warn(
      place(),
      `the strip of the ${name} is bent to ${round(stressMPa, 0)} MPa with the finger closed`,
      `at most ${MOST_STRIP_STRESS_MPA} MPa (assumed for hardened spring steel)`,
      'wind it up less, or take a longer strip; a thinner one is bent less for the same turns',
    );
  }
  if (!barrel) return;
  const thereAre = turnsInBarrel(barrel.radiusMm, barrel.arborRadiusMm, thicknessMm, lengthMm);
  const needed = spring.openTorqueMNm / spring.perTurnMNm + turns;
  if (needed > thereAre) {
    findings.warn(
      place(),
      `the spring of the ${name} is to turn ${round(needed)} times, preload and stroke together`,
      `at most the ${round(thereAre)} turns that this strip has in its barrel`,
      'wind it up less, or take a wider barrel',
    );
  }
}
