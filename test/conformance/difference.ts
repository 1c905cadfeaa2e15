import type { Outcome } from './runs.ts';

function doublesOf(bytes: string): Float64Array {
  return new Float64Array(Uint8Array.from(Buffer.from(bytes, 'hex')).buffer);
}

/** Numbers that differ in a look, by name. Compared bit for bit: 0 is not -0. */
function numbersThatDiffer(a: string | undefined, b: string | undefined, hints: string[]): string {
  if (a === undefined || b === undefined) return 'one of them is not there';
  const left = doublesOf(a);
  const right = doublesOf(b);
  return hints
    .map((hint, i) => (Object.is(left[i], right[i]) ? '' : `${hint} ${left[i]} and ${right[i]}`))
    .filter((words) => words !== '')
    .join('; ');
}

/** Where two runs part; undefined = nowhere. */
export function firstDifference(a: Outcome, b: Outcome, hints: string[]): string | undefined {
  for (const key of ['states', 'frames', 'files'] as const) {
    for (let i = 0; i < Math.max(a[key].length, b[key].length); i++) {
      if (a[key][i] === b[key][i]) continue;
      const what =
        key === 'states'
          ? numbersThatDiffer(a.states[i], b.states[i], hints)
          : `${a[key][i]} and ${b[key][i]}`;
      return `${key} ${i}: ${what}`;
    }
  }
  return a.reads === b.reads ? undefined : `readings taken: ${a.reads} and ${b.reads}`;
}
