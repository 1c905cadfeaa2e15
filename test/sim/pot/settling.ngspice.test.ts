import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dividerVolts, sourceOhm } from '../../../sim/pot/divider.ts';
import { rcStep } from '../../../sim/pot/settling.ts';
import { liftOffVolts } from '../../../sim/pot/wear.ts';

const missing = spawnSync('ngspice', ['--version']).error !== undefined;
if (missing) console.warn('skipped: ngspice is not installed (Debian: apt install ngspice)');

/** Runs a netlist whose .measure lines are named in `names`. */
function measured(netlist: string, names: string[]): number[] {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-spice-'));
  try {
    const file = join(folder, 'deck.cir');
    writeFileSync(file, netlist);
    const out = spawnSync('ngspice', ['-b', file], { encoding: 'utf8' }).stdout;
    return names.map((name) => Number(new RegExp(`^${name}\\s*=\\s*(\\S+)`, 'm').exec(out)?.[1]));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe.skipIf(missing)('against ngspice', () => {
  // 5.6 k, 10 k at x 0.3, 1 k, pull-down 100 k, 100 nF: the supply steps to 3.3 V, later the wiper lifts off.
  const deck = `* potentiometer, capacitor, lift-off
Vs s 0 PULSE(0 3.3 0 1n 1n 1 2)
Rt s t 5.6k
Ru t w 7k
Rl w b 3k
Rb b 0 1k
S1 w p c 0 sw
Vc c 0 PULSE(1 0 10m 1n 1n 1 2)
.model sw SW(Ron=1m Roff=1e15 Vt=0.5 Vh=0)
Rd p 0 100k
C1 p 0 100n
.tran 2u 40m 0 2u UIC
.meas tran early FIND v(p) AT=0.3m
.meas tran late FIND v(p) AT=9m
.meas tran lifted FIND v(p) AT=20m
.end
`;

  it('settles and decays as the circuit does', () => {
    const [early, late, lifted] = measured(deck, ['early', 'late', 'lifted']);
    const volts = dividerVolts(0.3, 3.3, 10e3, 5600, 1000, 100e3);
    const tauS = sourceOhm(0.3, 10e3, 5600, 1000, 100e3) * 100e-9;
    expect(rcStep(0, volts, 0.3e-3, tauS)).toBeCloseTo(early, 3);
    expect(volts).toBeCloseTo(late, 4);
    expect(liftOffVolts(volts, 10e-3, 100e3, 100e-9)).toBeCloseTo(lifted, 3);
  });
});
