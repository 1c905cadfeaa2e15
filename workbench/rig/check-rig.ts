import { stillPct } from '../../firmware/chain/prepare.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import type { Finger, Rig } from '../../sim/rig/rig.ts';
import { PIN_LIMIT_V } from '../../sim/sizing/wiring/corners.ts';
import { GOOD_TRAVEL_SHARE, spoolRadiusMm, travelShare } from '../../sim/spool/radius.ts';
import { springTorqueMNm } from '../../sim/spool/spring.ts';
import { fullExcursionMm } from '../../sim/string/excursion.ts';
import { checkBrakes } from './check-brakes.ts';
import { checkPins } from './check-pins.ts';
import { checkStripLimits, checkWays } from './check-ways.ts';
import type { Findings } from './findings.ts';
import type { RigBlock } from './rig-schema.ts';
import { springFromPulls } from './spring-pulls.ts';

const round = (value: number, digits = 2) => String(Number(value.toFixed(digits)));

function checkTravel(rig: Rig, finger: Finger, findings: Findings): void {
  const { name, potentiometer: pot, spoolRadiusMm: radiusMm } = finger;
  const electrical = ['potentiometer', 'electricalTravel'];
  const mechanical = ['potentiometer', 'mechanicalTravel'];
  if (findings.isFingerCut(name, electrical, mechanical)) return;
  if (pot.electricalTravelDeg > pot.mechanicalTravelDeg) {
    findings.error(
      findings.fingerPlace(name, electrical, mechanical),
      `potentiometer.electricalTravel is ${pot.electricalTravelDeg} deg, mechanicalTravel ${pot.mechanicalTravelDeg} deg`,
      'an electrical travel no larger than the mechanical travel',
      'look both up in the datasheet: the wiper cannot turn past the end stops',
    );
    return;
  }
  if (findings.isFingerCut(name, ['momentArms'], ['joints'], ['spool', 'radius'])) return;
  if (findings.isCut(['hand'])) return;
  const strokeMm = fullExcursionMm(finger, 0) * rig.hand.scale;
  if (strokeMm <= 0) {
    findings.error(
      findings.fingerPlace(name, ['momentArms']),
      `fingers.${name}: all moment arms are 0 mm`,
      'a string that at least one joint draws',
      'measure the distance of the string from each joint',
    );
    return;
  }
  if (travelShare(strokeMm, radiusMm, pot.electricalTravelDeg) > 1) {
    findings.warn(
      findings.fingerPlace(name, ['spool', 'radius'], ['momentArms'], electrical),
      `full closure of the ${name} draws ${round(strokeMm, 1)} mm: more than the ${pot.electricalTravelDeg} deg of the potentiometer on a spool of ${radiusMm} mm`,
      'a full closure within the electrical travel',
      `use a spool of at least ${round(spoolRadiusMm(strokeMm, pot.electricalTravelDeg, GOOD_TRAVEL_SHARE), 1)} mm, which takes 80 % of the travel`,
    );
  }
}

function checkSpring(finger: Finger, block: RigBlock, findings: Findings): void {
  const { name, spring, potentiometer: pot } = finger;
  if (findings.isFingerCut(name, ['spring'], ['potentiometer', 'drag'])) return;
  const returningMNm = springTorqueMNm(0, spring.openTorqueMNm, spring.perTurnMNm, spring.hysteresis, -1);
  if (returningMNm <= pot.dragMNm) {
    findings.warn(
      findings.fingerPlace(name, ['spring', 'openTorque'], ['spring', 'pulls'], ['potentiometer', 'drag']),
      `the spring returns with ${round(returningMNm)} mN·m against a drag of ${round(pot.dragMNm)} mN·m`,
      'a spring that turns the potentiometer back, better 1.5 times its drag',
      'wind the spring up further, or take a potentiometer that turns more easily',
    );
  }
  for (const [path, part] of [
    [['fingers', name, 'spring'], block.fingers?.[name]?.spring],
    [['eachFinger', 'spring'], block.eachFinger?.spring],
  ] as const) {
    if (!part?.pulls) continue;
    if (part.openTorque !== undefined || part.perTurn !== undefined) {
      findings.error(
        findings.place([...path, 'pulls']),
        `${path.join('.')} gives both pulls and torques`,
        'either pulls, or openTorque and perTurn',
        'remove one of the two',
      );
    }
    const measured = springFromPulls(part.pulls, finger.spoolRadiusMm);
    const frictionMNm = measured.frictionShare * measured.openTorqueMNm;
    const statedMNm =
      block.fingers?.[name]?.potentiometer?.drag ?? block.eachFinger?.potentiometer?.drag ?? 0;
    if (statedMNm > frictionMNm * 1.001) {
      findings.warn(
        findings.fingerPlace(name, ['potentiometer', 'drag']),
        `potentiometer.drag is ${round(statedMNm)} mN·m, but the pulls show only ${round(frictionMNm)} mN·m of friction`,
        'a drag within the friction that was measured',
        'leave "drag" out: the pulls contain it',
      );
    }
  }
}

/** Cut-offs of the low-pass, by their key in the file. */
function cutoffs(lowPass: Settings['lowPass']): [string, number][] {
  switch (lowPass.kind) {
    case 'none':
      return [];
    case 'exponential':
      return [['cutoff', lowPass.cutoffHz]];
    case 'oneEuro':
      return [
        ['minCutoff', lowPass.minCutoffHz],
        ['speedCutoff', lowPass.speedCutoffHz],
      ];
    case 'adaptive':
      return [['restCutoff', lowPass.restCutoffHz]];
  }
}

function checkSettings(rig: Rig, findings: Findings): void {
  if (rig.settings === undefined || findings.isCut(['frameRate'])) return;
  for (const [key, hz] of cutoffs(rig.settings.lowPass)) {
    if (hz < rig.frameRateHz / 2) continue;
    findings.error(
      findings.place(['settings', 'lowPass', key]),
      `settings.lowPass.${key} is ${hz} Hz at ${rig.frameRateHz} frames a second`,
      `less than half the frame rate, ${rig.frameRateHz / 2} Hz`,
      'lower it, or use "lowPass: none"',
    );
  }
}

/** A clip that lets through no more than the still band holds back: the finger would never move. */
function checkClip(rig: Rig, findings: Findings): void {
  if (rig.settings?.despike.kind !== 'clip') return;
  const { limitPct } = rig.settings.despike;
  const halfPct = stillPct(rig.settings.hysteresis) / 2;
  if (halfPct === 0 || limitPct > halfPct) return;
  findings.error(
    findings.place(['settings', 'despike', 'limit']),
    `settings.despike.limit is ${limitPct} %, which never leaves the still band of ± ${halfPct} %`,
    `more than ${halfPct} %`,
    'raise the limit, or narrow the band',
  );
}

/** What hangs together in a rig, beyond what each value is on its own. */
export function checkRig(rig: Rig, block: RigBlock, findings: Findings): void {
  if (rig.fingers.length === 0 && !findings.isCut(['fingers'])) {
    findings.error(
      findings.place(['fingers']),
      'no fingers',
      'at least one finger with its pin',
      'add "fingers:" and below it a line such as "  index: {pin: 33}"',
    );
  }
  checkPins(rig, findings);
  checkBrakes(rig, findings);
  for (const finger of rig.fingers) {
    checkTravel(rig, finger, findings);
    checkSpring(finger, block, findings);
    checkWays(finger, block, findings);
    checkStripLimits(finger, rig.hand.scale, findings);
  }
  if (!findings.isCut(['gesture']) && rig.gesture.offClosure >= rig.gesture.onClosure) {
    findings.error(
      findings.place(block.gesture?.off === undefined ? ['gesture', 'on'] : ['gesture', 'off']),
      `gesture.off is ${rig.gesture.offClosure}, gesture.on ${rig.gesture.onClosure}`,
      'off below on: the band between them keeps noise from toggling',
      'lower "off" or raise "on"',
    );
  }
  if (!findings.isCut(['supply']) && rig.supply.volts > PIN_LIMIT_V) {
    findings.warn(
      findings.place(['supply', 'voltage']),
      `supply.voltage is ${rig.supply.volts} V`,
      `at most ${PIN_LIMIT_V} V at the potentiometers`,
      'feed them from the 3V3 pin: a wiper at more can destroy the pin',
    );
  }
  checkSettings(rig, findings);
  checkClip(rig, findings);
}
