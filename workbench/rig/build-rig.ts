import type { BoardId } from '../../firmware/boards/board.ts';
import { defaultFinger, defaultPin, defaultRig, noisePreset } from '../../sim/rig/default-rig.ts';
import { DEFAULTS } from '../../sim/rig/defaults.ts';
import { FINGER_NAMES, type Finger, type FingerName, type NoiseLevels, type Rig } from '../../sim/rig/rig.ts';
import { brakesOf } from './brakes-schema.ts';
import type { FingerBlock } from './finger-schema.ts';
import { layerSprings } from './layer-spring.ts';
import { addBacklash, layJoints } from './measured-joints.ts';
import type { RigBlock } from './rig-schema.ts';
import { settingsFrom } from './settings-schema.ts';

function layer(finger: Finger, block: FingerBlock, handScale: number): void {
  const { spool, potentiometer: pot, wiring } = block;
  const { potentiometer, wiring: wires } = finger;
  if (block.momentArms)
    finger.momentArmsMm = [block.momentArms[0]!, block.momentArms[1]!, block.momentArms[2]!];
  layJoints(finger, block, handScale);
  if (block.guides) finger.guides = block.guides.map(({ wrap, friction }) => ({ wrapDeg: wrap, friction }));
  finger.playMm = block.play ?? finger.playMm;
  finger.anchorNPerMm = block.anchor ?? finger.anchorNPerMm;
  finger.spoolRadiusMm = spool?.radius ?? finger.spoolRadiusMm;
  finger.stringDiameterMm = spool?.string ?? finger.stringDiameterMm;
  potentiometer.resistanceOhm = pot?.resistance ?? potentiometer.resistanceOhm;
  potentiometer.tolerance = pot?.tolerance ?? potentiometer.tolerance;
  potentiometer.electricalTravelDeg = pot?.electricalTravel ?? potentiometer.electricalTravelDeg;
  potentiometer.mechanicalTravelDeg = pot?.mechanicalTravel ?? potentiometer.mechanicalTravelDeg;
  potentiometer.linearity = pot?.linearity ?? potentiometer.linearity;
  potentiometer.dragMNm = pot?.drag ?? potentiometer.dragMNm;
  potentiometer.usedCycles = pot?.usedCycles ?? potentiometer.usedCycles;
  potentiometer.ratedCycles = pot?.ratedCycles ?? potentiometer.ratedCycles;
  wires.topOhm = wiring?.top ?? wires.topOhm;
  wires.bottomOhm = wiring?.bottom ?? wires.bottomOhm;
  wires.seriesTolerance = wiring?.tolerance ?? wires.seriesTolerance;
  wires.pullDownOhm = wiring?.pullDown ?? wires.pullDownOhm;
  wires.capacitorF = wiring?.capacitor ?? wires.capacitorF;
}

/** One finger: its own block over `eachFinger` over the defaults of the board. */
function buildFinger(
  name: FingerName,
  board: BoardId,
  each: FingerBlock,
  own: FingerBlock & { channel?: number | undefined },
  pin: number,
  handScale: number,
): Finger {
  const finger = defaultFinger(name, board, pin);
  if (own.channel !== undefined) finger.channel = own.channel;
  layer(finger, each, handScale);
  layer(finger, own, handScale);
  addBacklash(finger, own.spool?.backlash ?? each.spool?.backlash);
  // Springs last: pulls turn into torque by the radius that this finger ends up with.
  const statedDragMNm = own.potentiometer?.drag ?? each.potentiometer?.drag;
  layerSprings(finger, each.spring, own.spring, statedDragMNm);
  return finger;
}

function buildNoise(block: RigBlock['noise']): NoiseLevels {
  const base = noisePreset(block?.preset ?? DEFAULTS.noise.value);
  return {
    sdCounts: block?.sd ?? base.sdCounts,
    humCounts: block?.hum ?? base.humCounts,
    humHz: block?.humFrequency ?? base.humHz,
    spikeShare: block?.spikeShare ?? base.spikeShare,
    spikeCounts: block?.spikes ?? base.spikeCounts,
    oddShare: block?.oddShare ?? base.oddShare,
    wanderCounts: block?.wander ?? base.wanderCounts,
    residue: block?.residue ?? base.residue,
  };
}

/** What a rig may have beside its strings; nothing of it has a default. */
function addExtras(rig: Rig, block: RigBlock): void {
  const { joystick, buttons, rail, multiplexer, watchdog, frameLink, dummyRead, cell, brakes } = block;
  if (joystick) rig.joystick = { xPin: joystick.x, yPin: joystick.y };
  if (buttons) rig.buttons = buttons;
  if (rail) rig.rail = { pin: rail.pin, divider: rail.divider };
  if (frameLink) rig.frameLink = { txPin: frameLink.tx, baud: frameLink.baud };
  if (watchdog !== undefined) rig.watchdogS = watchdog / 1000;
  if (dummyRead) rig.dummyRead = true;
  if (cell) {
    rig.cell = { capacityMAh: cell.capacity };
    if (cell.maxCurrent !== undefined) rig.cell.maxA = cell.maxCurrent;
  }
  if (brakes) rig.brakes = brakesOf(brakes);
  if (block.budget !== undefined) rig.budget = block.budget;
  if (multiplexer) {
    const [low, middle, high] = multiplexer.select;
    rig.multiplexer = { selectPins: [low!, middle!, high!], signalPin: multiplexer.signal };
  }
}

/** A rig from a block that the schema has passed; whatever the block leaves out is the default. */
export function buildRig(block: RigBlock): Rig {
  const base = defaultRig(block.board);
  const { gesture, wishes } = block;
  const rig: Rig = {
    name: block.name ?? base.name,
    hand: { side: block.hand?.side ?? base.hand.side, scale: block.hand?.size ?? base.hand.scale },
    board: base.board,
    supply: {
      volts: block.supply?.voltage ?? base.supply.volts,
      tolerance: block.supply?.tolerance ?? base.supply.tolerance,
      sag: block.supply?.sag ?? base.supply.sag,
    },
    frameRateHz: block.frameRate ?? base.frameRateHz,
    fingers: [],
    noise: buildNoise(block.noise),
    gesture: {
      onClosure: gesture?.on ?? base.gesture.onClosure,
      offClosure: gesture?.off ?? base.gesture.offClosure,
      dwellMs: gesture?.dwell ?? base.gesture.dwellMs,
    },
    calibrationPoints: block.calibrationPoints ?? base.calibrationPoints,
    wishes: {
      jitterPct: wishes?.jitter ?? base.wishes.jitterPct,
      lagMs: wishes?.lag ?? base.wishes.lagMs,
      falsePerHour: wishes?.falsePerHour ?? base.wishes.falsePerHour,
      frameShare: wishes?.frameShare ?? base.wishes.frameShare,
      stepPct: wishes?.step ?? base.wishes.stepPct,
      endMissPct: wishes?.endMiss ?? base.wishes.endMissPct,
    },
  };
  for (const name of FINGER_NAMES) {
    const own = block.fingers?.[name];
    if (!own) continue;
    const pin = own.pin ?? block.multiplexer?.signal ?? defaultPin(rig.board, name);
    rig.fingers.push(buildFinger(name, rig.board, block.eachFinger ?? {}, own, pin, rig.hand.scale));
  }
  addExtras(rig, block);
  if (block.settings) rig.settings = settingsFrom(block.settings);
  return rig;
}
