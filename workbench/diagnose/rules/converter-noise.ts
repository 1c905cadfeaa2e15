import { oddMargin } from '../features/codes.ts';
import { nameHum } from '../features/spectrum.ts';
import { confidenceOf, counts, type Finding, percent } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import type { RawLook } from '../raw-look.ts';
import { alive, found, type Rule } from './rule.ts';

/** Noise this many times the largest planned one is told. Assumed. */
const NOISE_FACTOR = 1.5;
/** Hum this many times the planned one is told: amplitudes differ between wires. Assumed. */
const HUM_FACTOR = 2;
/** What a tone must stand above the logarithm of the number of bins: chance alone does so once in e^10. */
const ABOVE_CHANCE = 10;
/** Standard deviations of a share that chance may take. */
const SIGMAS = 5;

/** What a channel at rest shows: read noise, odd codes, hum, slow pick-up. */
export const converterNoise: Rule = (hand, settled) => {
  const fingers = alive(hand, settled).filter(
    (finger) => finger.rawRest !== undefined && !settled.dirty.has(finger.plan.slot),
  );
  const findings: Finding[] = [];
  const humming = humOf(hand, fingers);
  if (humming) findings.push(humming);
  const odd = oddOf(hand, fingers);
  if (odd) findings.push(odd);
  for (const finger of fingers) {
    const noisy = noiseOf(finger);
    if (noisy) findings.push(noisy);
    else if (!humming?.fingers.includes(finger.plan.name)) findings.push(...wanderOf(hand, finger));
  }
  return findings;
};

/** Error of a tone's amplitude from the noise of the frames, counts. */
function toneError(raw: RawLook): number {
  return (Math.max(raw.frameSd, 0.5 * raw.ownSd) * 2) / Math.sqrt(raw.frames);
}

function humOf(hand: HandLook, fingers: FingerLook[]): Finding | undefined {
  const { humCounts } = hand.rig.noise;
  const humming = fingers.filter(({ rawRest: raw }) => {
    const tone = raw!.tone;
    return (
      tone !== undefined &&
      tone.overFloor > Math.log(raw!.frames / 2) + ABOVE_CHANCE &&
      tone.amplitude > HUM_FACTOR * humCounts + 4 * toneError(raw!)
    );
  });
  if (humming.length === 0) return undefined;
  const strongest = humming.reduce((a, b) =>
    b.rawRest!.tone!.amplitude > a.rawRest!.tone!.amplitude ? b : a,
  );
  const raw = strongest.rawRest!;
  const tone = raw.tone!;
  const name = nameHum(tone.seenHz, raw.toneRateHz);
  const likely = name.likelyHz.map((hz) => `${hz.toFixed(1)} Hz`).join(' or ');
  const limit = HUM_FACTOR * humCounts + 4 * toneError(raw);
  const others = name.otherwiseHz.slice(0, 3).map((hz) => `${hz.toFixed(1)} Hz`);
  return found('hum', humming, confidenceOf(tone.amplitude / limit), {
    evidence: [
      `A tone of ${tone.amplitude.toFixed(1)} counts in the ${strongest.plan.name}’s raw frames; planned are ${humCounts} counts of hum.`,
      `At ${raw.toneRateHz.toFixed(1)} values a second it shows at ${tone.seenHz.toFixed(1)} Hz: ${likely}, ${name.mainsHz ? `the mains of ${name.mainsHz} Hz${name.likelyHz[0]! > 80 ? ' doubled' : ''}` : 'which is not the mains'}${others.length > 0 ? `; ${others.join(', ')} would look the same` : ''}.`,
    ],
    cure: name.mainsHz
      ? [
          'Keep the wires away from mains leads and adapters, twist each wiper’s wire with its ground, and try the board on a battery: if the tone goes, the adapter brings it.',
          'Fit 100 nF from each pin to ground if there is none. In the chain, oversampling within a frame does not help against hum; a lower cut-off at rest does.',
        ]
      : [
          'Look for what works at that rate nearby: a motor, a servo, a switching converter, a lamp. Switch things off one by one while you watch.',
        ],
    rulesOut: ['Tremor of the hand lies at 6-12 Hz, below this tone.', 'Spikes have no frequency.'],
  });
}

function oddOf(hand: HandLook, fingers: FingerLook[]): Finding | undefined {
  const planned = 0.5 + 0.5 * hand.rig.noise.oddShare;
  const over = (raw: RawLook) => {
    const margin = oddMargin(raw.ownSd, raw.readings, SIGMAS);
    return (Math.abs(raw.oddShare - 0.5) - (planned - 0.5)) / margin;
  };
  const odd = fingers.filter(
    ({ rawRest: raw }) => raw!.ownSd > 0.5 && (over(raw!) > 1 || raw!.missing.length > 2),
  );
  if (odd.length === 0) return undefined;
  const worst = odd.reduce((a, b) => (over(b.rawRest!) > over(a.rawRest!) ? b : a));
  const raw = worst.rawRest!;
  const { missing } = raw;
  return found('oddCodes', odd, missing.length > 2 ? 0.9 : confidenceOf(over(raw)), {
    evidence: [
      `${percent(raw.oddShare, 0)} of the ${worst.plan.name}’s ${raw.readings} readings are odd codes; ${percent(planned, 0)} ± ${percent(oddMargin(raw.ownSd, raw.readings, SIGMAS), 0)} are expected.`,
      ...(missing.length > 2
        ? [
            `${missing.length} codes in the middle of its range never came: ${missing.slice(0, 6).join(', ')}${missing.length > 6 ? ', ...' : ''}.`,
          ]
        : []),
    ],
    cure: [
      'It is a habit of some chips (85-91 % odd codes in espressif/esp-idf#164), not of the wiring: averages gain less than the noise promises. Set "oddShare" in the rig file and choose again, or use a board with newer silicon.',
    ],
    rulesOut: ['Noise alone favours neither odd nor even codes once it is wider than a code.'],
  });
}

function noiseOf(finger: FingerLook): Finding | undefined {
  const raw = finger.rawRest!;
  const limit = NOISE_FACTOR * Math.max(raw.plannedSd, 0.7);
  if (raw.ownSd <= limit) return undefined;
  return found('noise', [finger], confidenceOf(raw.ownSd / limit), {
    evidence: [
      `Single readings at rest scatter by ${counts(raw.ownSd, 1)} (standard deviation), ${percent(raw.ownSd / Math.abs(finger.spanCounts))} of the closure; planned are ${counts(raw.plannedSd, 1)} at most.`,
    ],
    cure: [
      'Fit 100 nF from the pin to ground, close to the board: in espressif/esp-idf#164 10 nF at the pin cured most of such noise. Try another supply: USB adds its own.',
      `Or keep the wiring, put ${raw.ownSd.toFixed(1)} counts into the rig file and choose again: more oversampling and a wider band cost lag and resolution.`,
    ],
    rulesOut: [
      `Spikes: the noise is in most readings, ${raw.isolated.count} of ${raw.readings} stand alone.`,
    ],
  });
}

/** Slow pick-up: whole frames move, the readings inside them do not scatter. */
function wanderOf(hand: HandLook, finger: FingerLook): Finding[] {
  const raw = finger.rawRest!;
  const { wanderCounts, humCounts } = hand.rig.noise;
  // The median of five has 0.536 of a reading's standard deviation (normal law, computed).
  const planned = Math.hypot(0.536 * raw.plannedSd, wanderCounts, humCounts / Math.SQRT2, 0.6);
  const limit = NOISE_FACTOR * planned;
  if (raw.frameSd <= limit) return [];
  return [
    found('wander', [finger], confidenceOf(raw.frameSd / limit), {
      evidence: [
        `Whole frames at rest move by ${counts(raw.frameSd, 1)} (standard deviation) within 0.1 s while the readings inside a frame scatter by ${counts(raw.ownSd, 1)} only; planned are ${counts(planned, 1)}.`,
      ],
      cure: [
        'Something couples into the wiper’s wire, most at mid travel where the resistance behind the pin is highest (16-19 counts against 1-2 near the ends in ATOVproject/faderpunk#556). Shorten or shield the wire, keep it off motors and radio, or use a potentiometer of less resistance.',
        'Averaging within a frame does not help against it; the low-pass does.',
      ],
      rulesOut: ['Read noise: that would show inside the frames as well.'],
    }),
  ];
}
