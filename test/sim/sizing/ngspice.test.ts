import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { dividerVolts, sourceOhm } from '../../../sim/pot/divider.ts';
import { rcStep, settlingTimeConstants } from '../../../sim/pot/settling.ts';
import { keys, uniformAt } from '../../../sim/seed/mix.ts';

const missing = spawnSync('ngspice', ['--version']).error !== undefined;
if (missing) console.warn('skipped: ngspice is not installed (Debian: apt install ngspice)');

const CIRCUITS = 20;
/** When the wipers jump, s. */
const JUMP_S = 1e-3;

interface Circuit {
  supplyV: number;
  topOhm: number;
  potOhm: number;
  bottomOhm: number;
  /** 0 = none. */
  pullDownOhm: number;
  from: number;
  to: number;
  tauS: number;
  capacitorF: number;
}

/** Circuits as different as makers build them; the capacitor is what gives 0.2 to 1 ms, so that one run suits all. */
function circuits(): Circuit[] {
  const [k0, k1] = keys(20, 2026, 0);
  return Array.from({ length: CIRCUITS }, (_, i) => {
    let counter = 16 * i;
    const between = (low: number, high: number) => low * (high / low) ** uniformAt(counter++, k0, k1);
    const parts = {
      supplyV: between(1.8, 5),
      topOhm: between(100, 10e3),
      potOhm: between(1e3, 100e3),
      bottomOhm: between(100, 5e3),
      pullDownOhm: i % 4 === 3 ? 0 : between(50e3, 1e6),
      from: 0.05 + 0.3 * uniformAt(counter++, k0, k1),
      to: 0.6 + 0.35 * uniformAt(counter++, k0, k1),
    };
    const tauS = between(0.2e-3, 1e-3);
    const ohm = sourceOhm(parts.to, parts.potOhm, parts.topOhm, parts.bottomOhm, parts.pullDownOhm);
    return { ...parts, tauS, capacitorF: tauS / ohm };
  });
}

const volts = (c: Circuit, x: number) =>
  dividerVolts(x, c.supplyV, c.potOhm, c.topOhm, c.bottomOhm, c.pullDownOhm);

/** Where a step has come within half a code of 12 bits of its end. */
const settledV = (c: Circuit) => volts(c, c.to) + (volts(c, c.from) - volts(c, c.to)) / 8192;

function netlist(all: Circuit[]): string {
  const lines = ['* wipers that jump', '.options reltol=1e-7 vntol=1e-10 abstol=1e-14 method=trap'];
  lines.push(`Vj j 0 PULSE(0 1 ${JUMP_S} 1n 1n 1 2)`);
  all.forEach((c, i) => {
    const at = `(${c.from}+(${c.to - c.from})*v(j))`;
    lines.push(
      `Vs${i} s${i} 0 ${c.supplyV}`,
      `Rt${i} s${i} t${i} ${c.topOhm}`,
      `Ru${i} t${i} w${i} r='${c.potOhm}*(1-${at})'`,
      `Rl${i} w${i} b${i} r='${c.potOhm}*${at}'`,
      `Rb${i} b${i} 0 ${c.bottomOhm}`,
      `C${i} w${i} 0 ${c.capacitorF}`,
    );
    if (c.pullDownOhm > 0) lines.push(`Rp${i} w${i} 0 ${c.pullDownOhm}`);
    lines.push(
      `.meas tran rest${i} FIND v(w${i}) AT=${JUMP_S / 2}`,
      `.meas tran half${i} FIND v(w${i}) AT=${JUMP_S + c.tauS / 2}`,
      `.meas tran two${i} FIND v(w${i}) AT=${JUMP_S + 2 * c.tauS}`,
      `.meas tran end${i} FIND v(w${i}) AT=20m`,
      `.meas tran settled${i} WHEN v(w${i})=${settledV(c)}`,
    );
  });
  return `${[...lines, '.tran 2u 20m 0 2u', '.end'].join('\n')}\n`;
}

describe.skipIf(missing)('twenty dividers against ngspice', () => {
  const all = circuits();
  let output = '';
  const measured = (name: string) => {
    const value = Number(new RegExp(`^${name}\\s*=\\s*(\\S+)`, 'm').exec(output)?.[1]);
    expect(value, name).toBeGreaterThan(0);
    return value;
  };

  beforeAll(() => {
    const folder = mkdtempSync(join(tmpdir(), 'tautline-spice-'));
    try {
      const file = join(folder, 'deck.cir');
      writeFileSync(file, netlist(all));
      output = spawnSync('ngspice', ['-b', file], { encoding: 'utf8', maxBuffer: 1e8 }).stdout;
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('rest where the divider says, within 0.1 %', () => {
    all.forEach((c, i) => {
      expect(Math.abs(volts(c, c.from) / measured(`rest${i}`) - 1), `circuit ${i}`).toBeLessThan(1e-3);
      expect(Math.abs(volts(c, c.to) / measured(`end${i}`) - 1), `circuit ${i}`).toBeLessThan(1e-3);
    });
  });

  it('follow a jump of the wiper as the low-pass says, within 0.1 %', () => {
    all.forEach((c, i) => {
      for (const [name, taus] of [
        ['half', 0.5],
        ['two', 2],
      ] as const) {
        const ours = rcStep(volts(c, c.from), volts(c, c.to), taus * c.tauS, c.tauS);
        expect(Math.abs(ours / measured(`${name}${i}`) - 1), `circuit ${i}`).toBeLessThan(1e-3);
      }
    });
  });

  it('are within half a code of 12 bits after 9.011 time constants, within 0.1 %', () => {
    all.forEach((c, i) => {
      const takenS = measured(`settled${i}`) - JUMP_S;
      expect(Math.abs((settlingTimeConstants(12) * c.tauS) / takenS - 1), `circuit ${i}`).toBeLessThan(1e-3);
    });
  });
});
