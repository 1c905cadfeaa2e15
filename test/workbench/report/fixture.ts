import type { Settings } from '../../../firmware/chain/settings.ts';
import type {
  ChooseResult,
  RatedSettings,
  ScoreValue,
  TableRow,
  TradeOffPoint,
  WhatIf,
} from '../../../sim/study/result.ts';
import { SCORE_NAMES, SCORES, type ScoreName } from '../../../sim/study/score-names.ts';

/*
 * INVENTED RESULT. Nothing here was simulated or measured: a few rough formulas and a seeded generator make
 * numbers of the right size, so that the report and the terminal text have something to show.
 */

const WISHES = { jitterPct: 0.3, lagMs: 30, falsePerHour: 1, frameShare: 0.6, stepPct: 1.5, endMissPct: 3 };

/** Mulberry32: uniform in [0, 1), the same for the same seed. */
export function seededUniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** An invented answer of `choose` for a puppet theatre's controller; the same for the same arguments. */
export function inventedResult(options: { meets?: boolean; seed?: number } = {}): ChooseResult {
  const meets = options.meets ?? true;
  const uniform = seededUniform(options.seed ?? 2607);
  const table = inventedTable(uniform);
  const wishes = meets ? WISHES : { ...WISHES, jitterPct: 0.08, lagMs: 14 };
  const ranked = [...table].sort((a, b) => cost(a, wishes) - cost(b, wishes));
  const pick = rated(ranked[0], wishes, meets);
  return {
    command: 'choose',
    version: '0.1.0',
    rig: {
      name: 'Lantern Yard puppet theatre, right hand (invented)',
      file: 'examples/lantern-yard.yaml',
      side: 'right',
      board: 'esp32',
      frameRateHz: 100,
      fingers: ['thumb', 'index', 'middle', 'ring', 'little'],
    },
    seed: 7,
    draws: 64,
    screeningDraws: 12,
    settingsTried: table.length,
    settingsTooSlow: 41,
    evaluations: 5320,
    restFile: null,
    wishes,
    verdict: verdictOf(pick, meets),
    pick,
    runnersUp: ranked.slice(1, 5).map((row) => rated(row, wishes, meets)),
    pareto: frontOf(table),
    whatIf: inventedWhatIf(ranked),
    lagParts: lagPartsOf(pick.scores.lagMs.value),
    example: inventedTraces(uniform),
    rest: inventedRest(uniform),
    table,
    assumptions: inventedAssumptions(),
    notModelled: [
      'Heat: string and printed parts creep over hours.',
      'Radio bursts of the board itself while it sends over Bluetooth.',
      'Skin: the fingertip gives way under the string’s pull.',
      'Fingers that are moved by their neighbours.',
    ],
    warnings: [
      'Noise levels are assumed, not measured: record a minute at rest and choose again with the recording.',
      'The little finger’s potentiometer has done 8200 of its 10 000 rated cycles.',
    ],
  };
}

function inventedTable(uniform: () => number): TableRow[] {
  const rows: TableRow[] = [];
  for (const oversampling of [1, 4, 8, 16] as const)
    for (const clipPct of [0, 20])
      for (const restHz of [0, 0.6, 1.2, 2.5, 5, 10])
        for (const riseHz of [2, 4, 8])
          for (const widthPct of [0, 0.6]) {
            if (restHz === 0 && riseHz > 2) continue;
            const settings: Settings = {
              oversampling,
              despike: clipPct > 0 ? { kind: 'clip', limitPct: clipPct } : { kind: 'none' },
              lowPass: restHz > 0 ? { kind: 'adaptive', restCutoffHz: restHz, riseHz } : { kind: 'none' },
              hysteresis: widthPct > 0 ? { kind: 'still', widthPct } : { kind: 'none' },
            };
            rows.push(rowOf(settings, restHz, riseHz, widthPct, uniform));
          }
  return rows;
}

function rowOf(
  settings: Settings,
  restHz: number,
  riseHz: number,
  widthPct: number,
  uniform: () => number,
): TableRow {
  const clip = settings.despike.kind === 'clip' ? ` clip${settings.despike.limitPct}` : '';
  const low = restHz > 0 ? ` adaptive${restHz}/${riseHz}` : '';
  const id = `os${settings.oversampling}${clip}${low}${widthPct > 0 ? ` still${widthPct}` : ''}`;
  const near = (value: number): number => value * (0.94 + 0.12 * uniform());
  const filter = restHz > 0 ? Math.sqrt(restHz / 35) : 1;
  const spikes = clip === '' ? 0.35 : 0.05;
  const raw = Math.hypot(0.55 / Math.sqrt(settings.oversampling), 0.12, spikes);
  const jitterPct = near(raw * filter * (widthPct > 0 ? 0.7 : 1));
  const lagMs = near(8.5 + settings.oversampling * 0.12 + (restHz > 0 ? 420 / (restHz + riseHz * 7) : 0));
  const scores: Record<ScoreName, number> = {
    jitterPct,
    jitterDeg: jitterPct * 0.9,
    lagMs,
    lagCorrelationMs: near(lagMs * 1.05),
    errorPct: near(0.9 + lagMs * 0.09),
    overshootPct: near(0.25),
    endMissPct: near(0.2 + widthPct / 2),
    stepPct: near(0.5 + widthPct * 0.6 + jitterPct),
    falsePerHour: 3600 * 100 * Math.exp(-((2.2 / (jitterPct + 0.35)) ** 2)),
    recoveryMs: near(clip === '' ? 140 : 45),
    loadPct: near(14 + settings.oversampling * 2.1 + (restHz > 0 ? 6 : 0)),
  };
  return { id, settings, draws: uniform() < 0.7 ? 12 : 64, scores, metShare: metShareOf(scores) };
}

function metShareOf(scores: Record<ScoreName, number>): number {
  const over = Math.max(
    scores.jitterPct / WISHES.jitterPct,
    scores.lagMs / WISHES.lagMs,
    scores.falsePerHour / WISHES.falsePerHour,
    scores.stepPct / WISHES.stepPct,
  );
  return Math.min(1, Math.max(0, Math.round(64 * (1.6 - 0.75 * over)) / 64));
}

function cost(row: TableRow, wishes: typeof WISHES): number {
  const { jitterPct, lagMs, falsePerHour, stepPct } = row.scores;
  return Math.max(
    jitterPct / wishes.jitterPct,
    lagMs / wishes.lagMs,
    falsePerHour / wishes.falsePerHour,
    stepPct / wishes.stepPct,
  );
}

function rated(row: TableRow, wishes: typeof WISHES, meets: boolean): RatedSettings {
  const scores = {} as Record<ScoreName, ScoreValue>;
  for (const name of SCORE_NAMES) {
    const value = row.scores[name];
    scores[name] = { value, low: value * 0.965, high: value * 1.04, unit: SCORES[name].unit };
  }
  const byLag = row.scores.lagMs / wishes.lagMs > row.scores.jitterPct / wishes.jitterPct;
  return {
    id: row.id,
    settings: row.settings,
    scores,
    metShare: meets ? 62 / 64 : 3 / 64,
    metShareLow: meets ? 0.902 : 0.013,
    worstRatio: cost(row, wishes) * 1.08,
    hardestWish: byLag ? 'lagMs' : 'jitterPct',
    held: {
      jitterPct: row.scores.jitterPct * 1.08,
      lagMs: row.scores.lagMs * 1.02,
      falsePerHour: row.scores.falsePerHour,
      stepPct: row.scores.stepPct * 1.05,
      endMissPct: row.scores.endMissPct,
      frameShare: row.scores.loadPct / 100,
    },
    meets,
  };
}

function verdictOf(pick: RatedSettings, meets: boolean): ChooseResult['verdict'] {
  const lag = pick.scores.lagMs.value.toFixed(1);
  const jitter = pick.scores.jitterPct.value.toFixed(2);
  if (meets)
    return {
      meets,
      headline: `Yes: with ${pick.id} the hand rests within ${jitter} % and follows a fast grasp after ${lag} ms.`,
      details: [
        'Reading eight times a frame removes most of the read noise; what is left is slow pick-up at the wiper.',
        'A calmer hand would need more than 5 ms of extra lag for every tenth of jitter.',
      ],
      obstacles: [],
    };
  return {
    meets,
    headline: `No: nothing tried comes nearer than ${pick.id}, with ${jitter} % of jitter and ${lag} ms of lag.`,
    details: ['Jitter and lag cannot both be had with this noise.'],
    obstacles: [
      'Slow pick-up at the wiper is 0.12 % of closure: no averaging within a frame removes it.',
      'Half a frame of waiting and the board’s own time alone take 8.6 of the 14 ms wished.',
    ],
  };
}

function frontOf(table: TableRow[]): TradeOffPoint[] {
  const points = table.map((row) => ({
    id: row.id,
    jitterPct: row.scores.jitterPct,
    lagMs: row.scores.lagMs,
  }));
  return points.filter((point) =>
    points.every((other) => !(other.jitterPct < point.jitterPct && other.lagMs < point.lagMs)),
  );
}

function inventedWhatIf(ranked: TableRow[]): WhatIf[] {
  const change = (index: number, words: string, path: string, ratio: number, halfWidth: number): WhatIf => {
    const [from, to] = words.split(': ')[1].split(' → ') as [string, string];
    const interval = (value: number, half: number, unit: string): ScoreValue => ({
      value,
      low: value - half,
      high: value + half,
      unit,
    });
    return {
      change: words,
      path,
      from,
      to,
      settings: ranked[index].settings,
      settingsId: ranked[index].id,
      beforeId: ranked[0].id,
      ratioChange: interval(ratio, halfWidth, ''),
      jitterChangePct: interval(ratio * 0.21, halfWidth * 0.25, '% of closure'),
      lagChangeMs: interval(ratio * 9.3, halfWidth * 8, 'ms'),
      falsePerHour: { before: 0.041, after: 0.041 * Math.exp(ratio * 6) },
      clear: Math.abs(ratio) > halfWidth,
    };
  };
  return [
    change(0, 'frame rate: 100 Hz → 125 Hz', 'frameRateHz', -0.126, 0.03),
    change(
      1,
      'capacitor at the pin: 100 nF → 1 µF on every finger’s wiper, as close to the board as it goes',
      'wiring.capacitor',
      -0.215,
      0.05,
    ),
    change(2, 'spool radius: 15 mm → 12 mm', 'fingers.spool.radius', -0.09, 0.024),
    change(0, 'supply: USB rail → own regulator', 'supply.sag', -0.018, 0.031),
    change(3, 'calibration: 5 points → 9 points', 'calibrationPoints', 0.004, 0.012),
    change(1, 'potentiometer: 10 kΩ → 100 kΩ', 'potentiometer.resistance', 0.17, 0.06),
    change(4, 'string guide friction: 0.12 → 0.2', 'guides.friction', 0.045, 0.02),
  ];
}

function lagPartsOf(lagMs: number): ChooseResult['lagParts'] {
  const fixed = [
    { part: 'waiting for the next frame (half a frame)', ms: 5 },
    { part: 'wiring (resistance and capacitor at the pin)', ms: 0.42 },
    { part: 'reading, smoothing and sending on the board', ms: 3.1 },
    { part: 'play of string and spool', ms: 1.3 },
  ];
  const rest = lagMs - fixed.reduce((sum, part) => sum + part.ms, 0);
  return [...fixed, { part: 'low-pass and dead band', ms: rest }];
}

function inventedTraces(uniform: () => number): ChooseResult['example'] {
  const timeMs: number[] = [];
  const truthPct: number[] = [];
  const rawPct: number[] = [];
  const smoothedPct: number[] = [];
  let smoothed = 2;
  for (let frame = 0; frame < 90; frame++) {
    const share = Math.min(1, Math.max(0, (frame - 30) / 12));
    const truth = 2 + 91 * share ** 3 * (10 - 15 * share + 6 * share ** 2);
    const raw = truth + (uniform() + uniform() + uniform() - 1.5) * 1.1 + (frame === 63 ? 14 : 0);
    smoothed +=
      Math.min(6, raw - smoothed) * 0.16 + (Math.abs(raw - smoothed) > 6 ? (raw - smoothed) * 0.35 : 0);
    timeMs.push(4200 + frame * 10);
    truthPct.push(truth);
    rawPct.push(raw);
    smoothedPct.push(smoothed);
  }
  return { finger: 'ring', draw: 31, timeMs, truthPct, rawPct, smoothedPct };
}

function inventedRest(uniform: () => number): ChooseResult['rest'] {
  const binEdgesPct = Array.from({ length: 61 }, (_, index) => (index - 30) * 0.06);
  const raw = new Array<number>(60).fill(0);
  const smoothed = new Array<number>(60).fill(0);
  const gauss = (): number => Array.from({ length: 12 }, uniform).reduce((sum, value) => sum + value, -6);
  for (let sample = 0; sample < 4000; sample++) {
    raw[Math.min(59, Math.max(0, Math.floor((gauss() * 0.58) / 0.06 + 30)))] += 1;
    smoothed[Math.min(59, Math.max(0, Math.floor((gauss() * 0.12) / 0.06 + 30)))] += 1;
  }
  return { finger: 'ring', binEdgesPct, raw, smoothed, rawSdPct: 0.58, smoothedSdPct: 0.12 };
}

function inventedAssumptions(): ChooseResult['assumptions'] {
  const entry = (path: string, label: string, value: string, kind: string, source: string) => ({
    path,
    label,
    value,
    kind,
    source,
  });
  return [
    entry('frameRateHz', 'frame rate', '100 Hz', 'rig file', 'examples/lantern-yard.yaml'),
    entry('hand.side', 'side', 'right', 'rig file', 'examples/lantern-yard.yaml'),
    entry(
      'noise.sd',
      'noise of a single reading',
      '6 counts',
      'assumed',
      'middle of what builders report, 2 to 25',
    ),
    entry(
      'noise.spikes',
      'share of readings with a spike',
      '0.1 %',
      'assumed',
      'no series of measurements known',
    ),
    entry(
      'guides.friction',
      'friction of string on guide',
      '0.12',
      'assumed',
      'braid on printed plastic, no measurement known',
    ),
    entry(
      'potentiometer.tolerance',
      'tolerance of the resistance',
      '±20 %',
      'datasheet',
      '9 mm carbon panel part, PTV09 datasheet',
    ),
    entry(
      'wiring.settling',
      'time constant at the pin',
      '0.42 ms',
      'computed',
      'τ = R·C with R = x(1 − x)·Rp and the series resistors',
    ),
    entry(
      'adc.curve',
      'curve of the converter',
      '46 levels, 0.14 V to 3.13 V',
      'measured',
      'GitHub kisel/esp32_adc_test',
    ),
  ];
}
