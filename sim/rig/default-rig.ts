import type { BoardId } from '../../firmware/boards/board.ts';
import { DEFAULTS } from './defaults.ts';
import { FINGER_NAMES, type Finger, type FingerName, type NoiseLevels, type Rig } from './rig.ts';

/** Presets of the noise at the ADC pin, from best to worst. */
export const NOISE_PRESETS = ['quiet', 'typical', 'noisy', 'rough'] as const;
export type NoisePreset = (typeof NOISE_PRESETS)[number];

/** Levels of a preset; a fresh object each time. Sources: {@link DEFAULTS}, `noise.*`. */
export function noisePreset(preset: NoisePreset): NoiseLevels {
  const [smallest, largest] = DEFAULTS[`noise.${preset}.spikes`].value;
  return {
    sdCounts: DEFAULTS[`noise.${preset}.sd`].value,
    humCounts: DEFAULTS[`noise.${preset}.hum`].value,
    humHz: DEFAULTS[`noise.${preset}.humFrequency`].value,
    spikeShare: DEFAULTS[`noise.${preset}.spikeShare`].value,
    spikeCounts: [smallest!, largest!],
    oddShare: DEFAULTS[`noise.${preset}.oddShare`].value,
    wanderCounts: DEFAULTS[`noise.${preset}.wander`].value,
    residue: DEFAULTS[`noise.${preset}.residue`].value,
  };
}

/** Default ADC pin of a finger on a board. */
export function defaultPin(board: BoardId, name: FingerName): number {
  return DEFAULTS[`finger.pin.${board}`].value[FINGER_NAMES.indexOf(name)]!;
}

/** A finger with every default; the wiring fits the board's ADC. A fresh object each time. */
export function defaultFinger(name: FingerName, board: BoardId, pin = defaultPin(board, name)): Finger {
  const [near, middle, far] = DEFAULTS['finger.momentArms'].value;
  return {
    name,
    pin,
    momentArmsMm: [near!, middle!, far!],
    guides: [
      { wrapDeg: DEFAULTS['finger.guides.wrap'].value, friction: DEFAULTS['finger.guides.friction'].value },
    ],
    playMm: DEFAULTS['finger.play'].value,
    anchorNPerMm: DEFAULTS['finger.anchor'].value,
    spoolRadiusMm: DEFAULTS['finger.spool.radius'].value,
    stringDiameterMm: DEFAULTS['finger.spool.string'].value,
    spring: {
      openTorqueMNm: DEFAULTS['finger.spring.openTorque'].value,
      perTurnMNm: DEFAULTS['finger.spring.perTurn'].value,
      hysteresis: DEFAULTS['finger.spring.hysteresis'].value,
    },
    potentiometer: {
      resistanceOhm: DEFAULTS['finger.potentiometer.resistance'].value,
      tolerance: DEFAULTS['finger.potentiometer.tolerance'].value,
      electricalTravelDeg: DEFAULTS['finger.potentiometer.electricalTravel'].value,
      mechanicalTravelDeg: DEFAULTS['finger.potentiometer.mechanicalTravel'].value,
      linearity: DEFAULTS['finger.potentiometer.linearity'].value,
      dragMNm: DEFAULTS['finger.potentiometer.drag'].value,
      usedCycles: DEFAULTS['finger.potentiometer.usedCycles'].value,
      ratedCycles: DEFAULTS['finger.potentiometer.ratedCycles'].value,
    },
    wiring: {
      topOhm: DEFAULTS[`finger.wiring.${board}.top`].value,
      bottomOhm: DEFAULTS[`finger.wiring.${board}.bottom`].value,
      seriesTolerance: DEFAULTS['finger.wiring.tolerance'].value,
      pullDownOhm: DEFAULTS['finger.wiring.pullDown'].value,
      capacitorF: DEFAULTS['finger.wiring.capacitor'].value,
    },
  };
}

/** A whole rig with every default and five fingers. A fresh object each time. */
export function defaultRig(board: BoardId = DEFAULTS.board.value): Rig {
  return {
    name: DEFAULTS.name.value,
    hand: { side: DEFAULTS['hand.side'].value, scale: DEFAULTS['hand.size'].value },
    board,
    supply: {
      volts: DEFAULTS['supply.voltage'].value,
      tolerance: DEFAULTS['supply.tolerance'].value,
      sag: DEFAULTS['supply.sag'].value,
    },
    frameRateHz: DEFAULTS.frameRate.value,
    fingers: FINGER_NAMES.map((name) => defaultFinger(name, board)),
    noise: noisePreset(DEFAULTS.noise.value),
    gesture: {
      onClosure: DEFAULTS['gesture.on'].value,
      offClosure: DEFAULTS['gesture.off'].value,
      dwellMs: DEFAULTS['gesture.dwell'].value,
    },
    calibrationPoints: DEFAULTS.calibrationPoints.value,
    wishes: {
      jitterPct: DEFAULTS['wishes.jitter'].value,
      lagMs: DEFAULTS['wishes.lag'].value,
      falsePerHour: DEFAULTS['wishes.falsePerHour'].value,
      frameShare: DEFAULTS['wishes.frameShare'].value,
      stepPct: DEFAULTS['wishes.step'].value,
      endMissPct: DEFAULTS['wishes.endMiss'].value,
    },
  };
}
