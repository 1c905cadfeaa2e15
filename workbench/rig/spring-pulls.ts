/** One reading of a spring balance held at the string. */
export interface Pull {
  /** String out of the spool, mm; 0 = finger open. */
  stringOutMm: number;
  /** Pull while the spring slowly takes the string in, N. */
  inN: number;
  /** Pull while the string is slowly drawn out, N; >= inN. */
  outN: number;
}

export interface MeasuredSpring {
  openTorqueMNm: number;
  perTurnMNm: number;
  /** All friction at the spool as a share of the spring torque, the potentiometer's drag included. */
  frictionShare: number;
}

/**
 * Spring torque from pulls measured right at the spool (no guides between).
 *
 * The mean of both directions is the spring, half their difference is friction. A straight line through
 * torque over turns (least squares) gives the torque with the finger open and the torque per turn; the
 * growth of the winding, about half a percent, is left out. The friction contains the drag of the
 * potentiometer, which a balance cannot tell apart.
 * Source: computed, torque = pull · radius, turns = string out / (2·π·radius).
 * @param pulls at least two, at different lengths
 */
export function springFromPulls(pulls: readonly Pull[], spoolRadiusMm: number): MeasuredSpring {
  const turns = pulls.map((pull) => pull.stringOutMm / (2 * Math.PI * spoolRadiusMm));
  const torques = pulls.map((pull) => ((pull.inN + pull.outN) / 2) * spoolRadiusMm);
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const meanTurns = mean(turns);
  const meanTorque = mean(torques);
  const spread = turns.reduce((sum, turn) => sum + (turn - meanTurns) ** 2, 0);
  const joint = turns.reduce((sum, turn, row) => sum + (turn - meanTurns) * (torques[row]! - meanTorque), 0);
  const perTurnMNm = joint / spread;
  return {
    openTorqueMNm: meanTorque - perTurnMNm * meanTurns,
    perTurnMNm,
    frictionShare: mean(pulls.map((pull) => (pull.outN - pull.inN) / (pull.outN + pull.inN))),
  };
}
