/** What a field of the rig file measures. */
export type Dimension =
  | 'length'
  | 'angle'
  | 'turns'
  | 'resistance'
  | 'capacitance'
  | 'force'
  | 'torque'
  | 'torquePerTurn'
  | 'stiffness'
  | 'modulus'
  | 'voltage'
  | 'current'
  | 'charge'
  | 'frequency'
  | 'time'
  | 'share'
  | 'percent'
  | 'counts'
  | 'money'
  | 'plain';

/** A unit as a power of ten of the base unit, or as a factor. */
export type Scale = { shift: number } | { factor: number };

export interface DimensionFacts {
  /** With its article, for messages. */
  noun: string;
  /** Unit of the parsed number, and of a bare number where that is allowed. */
  base: string;
  /** Whether a number without a unit is taken to be in the base unit. Zero needs no unit anywhere. */
  bare: boolean;
  /** How to write one, for messages. */
  example: string;
  units: Record<string, Scale>;
}

const shift = (power: number): Scale => ({ shift: power });
const factor = (value: number): Scale => ({ factor: value });

/** Newton per gram-force: the kilogram-force is 9.80665 N by definition (CGPM 1901). */
const N_PER_GF = 0.00980665;

const TORQUE_UNITS: Record<string, Scale> = {
  mNm: shift(0),
  Nmm: shift(0),
  uNm: shift(-3),
  cNm: shift(1),
  Ncm: shift(1),
  Nm: shift(3),
  gfcm: factor(N_PER_GF * 10),
  gcm: factor(N_PER_GF * 10),
  gfmm: factor(N_PER_GF),
  gmm: factor(N_PER_GF),
  kgfcm: factor(N_PER_GF * 10_000),
  kgcm: factor(N_PER_GF * 10_000),
};

function perTurn(units: Record<string, Scale>): Record<string, Scale> {
  const all: Record<string, Scale> = { ...units };
  for (const [name, scale] of Object.entries(units)) {
    for (const suffix of ['/turn', '/rev', 'perturn']) all[name + suffix] = scale;
  }
  return all;
}

/**
 * Units by dimension. Names are as left by tidying: no spaces, no dots, `u` for micro, `ohm` for Ω, `deg`
 * for °.
 */
export const DIMENSIONS: Record<Dimension, DimensionFacts> = {
  length: {
    noun: 'a length',
    base: 'mm',
    bare: true,
    example: '12.5 mm or 1.25 cm',
    units: { um: shift(-3), mm: shift(0), cm: shift(1), m: shift(3), in: factor(25.4) },
  },
  angle: {
    noun: 'an angle',
    base: 'deg',
    bare: true,
    example: '180 deg or 45°',
    units: {
      deg: shift(0),
      rad: factor(180 / Math.PI),
      turn: factor(360),
      turns: factor(360),
      rev: factor(360),
    },
  },
  turns: {
    noun: 'a number of turns',
    base: 'turns',
    bare: true,
    example: '3 turns or 3',
    units: { turns: shift(0), turn: shift(0), rev: shift(0), deg: factor(1 / 360) },
  },
  resistance: {
    noun: 'a resistance',
    base: 'ohm',
    bare: true,
    example: '4.7 kΩ, 4k7 or 560 ohm',
    units: {
      ohm: shift(0),
      ohms: shift(0),
      R: shift(0),
      k: shift(3),
      K: shift(3),
      kohm: shift(3),
      Kohm: shift(3),
      kohms: shift(3),
      M: shift(6),
      Mohm: shift(6),
    },
  },
  capacitance: {
    noun: 'a capacitance',
    base: 'F',
    bare: false,
    example: '100 nF or 0.1 uF',
    units: {
      pF: shift(-12),
      nF: shift(-9),
      uF: shift(-6),
      mF: shift(-3),
      F: shift(0),
      p: shift(-12),
      n: shift(-9),
      u: shift(-6),
    },
  },
  force: {
    noun: 'a force',
    base: 'N',
    bare: true,
    example: '0.35 N or 36 gf',
    units: {
      N: shift(0),
      mN: shift(-3),
      cN: shift(-2),
      gf: factor(N_PER_GF),
      g: factor(N_PER_GF),
      kgf: factor(N_PER_GF * 1000),
      kg: factor(N_PER_GF * 1000),
    },
  },
  torque: {
    noun: 'a torque',
    base: 'mN·m',
    bare: true,
    example: '5.3 mN·m or 54 gf·cm',
    units: TORQUE_UNITS,
  },
  torquePerTurn: {
    noun: 'a torque per turn',
    base: 'mN·m',
    bare: true,
    example: '1.767 mN·m or 18 gf·cm',
    units: perTurn(TORQUE_UNITS),
  },
  stiffness: {
    noun: 'a stiffness',
    base: 'N/mm',
    bare: true,
    example: '1 N/mm',
    units: {
      'N/mm': shift(0),
      'N/cm': shift(-1),
      'N/m': shift(-3),
      'kN/m': shift(0),
      'mN/mm': shift(-3),
      'gf/mm': factor(N_PER_GF),
      'g/mm': factor(N_PER_GF),
    },
  },
  modulus: {
    noun: 'an elastic modulus',
    base: 'GPa',
    bare: true,
    example: '200 GPa',
    units: {
      GPa: shift(0),
      MPa: shift(-3),
      'kN/mm2': shift(0),
      'kN/mm²': shift(0),
      'N/mm2': shift(-3),
      'N/mm²': shift(-3),
    },
  },
  voltage: {
    noun: 'a voltage',
    base: 'V',
    bare: true,
    example: '3.3 V',
    units: { V: shift(0), mV: shift(-3) },
  },
  current: {
    noun: 'a current',
    base: 'A',
    bare: false,
    example: '650 mA or 3 A',
    units: { A: shift(0), mA: shift(-3), uA: shift(-6) },
  },
  charge: {
    noun: 'a capacity',
    base: 'mAh',
    bare: false,
    example: '500 mAh or 1.2 Ah',
    units: { mAh: shift(0), Ah: shift(3) },
  },
  frequency: {
    noun: 'a frequency',
    base: 'Hz',
    bare: true,
    example: '100 Hz',
    units: { Hz: shift(0), kHz: shift(3), '/s': shift(0), '1/s': shift(0) },
  },
  time: {
    noun: 'a time',
    base: 'ms',
    bare: true,
    example: '20 ms',
    units: { us: shift(-3), ms: shift(0), s: shift(3), min: factor(60_000) },
  },
  share: { noun: 'a share', base: '', bare: true, example: '30 % or 0.3', units: { '%': shift(-2) } },
  percent: {
    noun: 'a percentage of full closure',
    base: '%',
    bare: false,
    example: '0.5 %',
    units: { '%': shift(0) },
  },
  counts: {
    noun: 'a number of ADC counts',
    base: 'counts',
    bare: true,
    example: '6 counts or 6',
    units: { counts: shift(0), count: shift(0), codes: shift(0), LSB: shift(0) },
  },
  money: { noun: 'an amount of money', base: '', bare: true, example: '12.50', units: {} },
  plain: { noun: 'a plain number', base: '', bare: true, example: '2', units: {} },
};
