/** The first look at one finger: is there a signal, which way does it go, does it come back, is it quiet? */

/** Steps in the order in which they are gone through. */
export const FIRST_LIGHT_STEPS = ['signal', 'direction', 'return', 'quiet'] as const;
export type FirstLightStep = (typeof FIRST_LIGHT_STEPS)[number];

export interface StepGuide {
  ask: string;
  /** What to check with a multimeter when it fails, supply on, nothing shorted. */
  multimeter: string;
  lengthS: number;
}

export const STEP_GUIDES: Record<FirstLightStep, StepGuide> = {
  signal: {
    ask: 'Leave the finger open and still.',
    multimeter:
      'Measure from GND to the wiper’s pin: it must lie between the bottom resistor’s voltage and the top one’s, and change when you turn the spool by hand. 0 V: the wiper or the top leg is off. The full 3.3 V: the ground leg is off.',
    lengthS: 2,
  },
  direction: {
    ask: 'Close the finger and keep it closed.',
    multimeter:
      'The wiper’s voltage must rise as the finger closes. If it falls, swap the two outer legs of the potentiometer. If it does not move, the spool turns on its shaft, or the string hangs.',
    lengthS: 3,
  },
  return: {
    ask: 'Open the finger and let the string go by itself.',
    multimeter:
      'The voltage must come back to what it was. If it stays high, the spring does not turn the potentiometer back: more preload, or a part that turns more easily.',
    lengthS: 3,
  },
  quiet: {
    ask: 'Leave the finger open and still once more.',
    multimeter:
      'Touch nothing and watch the voltage: it should stand still within a few millivolts. If it wanders, look for a loose joint, a missing capacitor, or a long bare wire at the wiper.',
    lengthS: 3,
  },
};

export interface StepResult {
  isGood: boolean;
  /** What was seen, with its number. */
  seen: string;
  /** What to do; '' when it is good. */
  next: string;
}

/** Least movement that counts as closing, share of the planned travel. Assumed. */
const LEAST_MOVE = 0.15;
/** How near the open end it must come back, share of what it moved. Assumed: play and friction keep some. */
const MOST_LEFT = 0.2;
/** Most noise at rest, share of travel (sd). Assumed. */
const MOST_NOISE = 0.02;

/** What the steps before found. */
export interface FirstLightState {
  openTravel: number;
  closedTravel: number;
}

/**
 * Judges one step from its frames.
 * @param travel of the finger in each frame of the step; null where the board sent no valid value
 * @param state of the steps before; the step's own finding is put in
 */
export function judgeFirstLight(
  step: FirstLightStep,
  travel: readonly (number | null)[],
  state: FirstLightState,
): StepResult {
  const valid = travel.filter((value): value is number => value !== null);
  const { multimeter } = STEP_GUIDES[step];
  if (travel.length === 0) {
    return {
      isGood: false,
      seen: 'No frames came.',
      next: 'Look at the link first: port, cable, program on the board.',
    };
  }
  if (valid.length < 0.9 * travel.length) {
    const share = (100 * (1 - valid.length / travel.length)).toFixed(0);
    return {
      isGood: false,
      seen: `The board calls the wiper open in ${share} % of the frames.`,
      next: multimeter,
    };
  }
  const tail = mean(valid.slice(-Math.ceil(valid.length / 3)));
  switch (step) {
    case 'signal': {
      state.openTravel = mean(valid);
      return {
        isGood: true,
        seen: `A signal is there, at ${pct(state.openTravel)} of the planned travel.`,
        next: '',
      };
    }
    case 'direction': {
      state.closedTravel = tail;
      const moved = tail - state.openTravel;
      if (moved >= LEAST_MOVE)
        return { isGood: true, seen: `It moved by ${pct(moved)} the right way.`, next: '' };
      const seen =
        moved <= -LEAST_MOVE
          ? `It moved by ${pct(-moved)} the wrong way.`
          : `It moved by only ${pct(Math.abs(moved))}.`;
      return { isGood: false, seen, next: multimeter };
    }
    case 'return': {
      const moved = state.closedTravel - state.openTravel;
      const left = moved === 0 ? 1 : (tail - state.openTravel) / moved;
      const seen = `It came back to within ${pct(Math.abs(left))} of what it had moved.`;
      return Math.abs(left) <= MOST_LEFT
        ? { isGood: true, seen, next: '' }
        : { isGood: false, seen, next: multimeter };
    }
    case 'quiet': {
      const middle = mean(valid);
      const sd = Math.sqrt(mean(valid.map((value) => (value - middle) ** 2)));
      const seen = `It stands still within ${(100 * sd).toFixed(2)} % (sd).`;
      return sd <= MOST_NOISE ? { isGood: true, seen, next: '' } : { isGood: false, seen, next: multimeter };
    }
  }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function pct(share: number): string {
  return `${(100 * share).toFixed(0)} %`;
}
