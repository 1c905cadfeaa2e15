import { faradWords, ohmWords, toleranceWords } from '../../../sim/sizing/value-words.ts';
import type { ResistorProposals } from '../../../sim/sizing/wiring/resistor-proposals.ts';
import type { FingerWiring, WiringSize } from '../../../sim/sizing/wiring/wiring-size.ts';
import { wrapWords } from '../../report/wrap.ts';
import { textTable } from '../text-table.ts';

/** Potentiometers and their wiring, for the terminal. */
export function wiringLines(size: WiringSize, columns: number): string[] {
  const lines = ['Wiring'];
  const say = (text: string) => lines.push(...wrapWords(text, columns - 2).map((line) => `  ${line}`));
  const table = (rows: string[][]) => {
    const right = rows[0]!.map((_, i) => i).slice(1);
    lines.push(...textTable(rows, { columns, right, indent: 2 }));
  };
  table([
    ['finger', 'pin, all tolerances', 'behind the pin', 'settles', 'cut-off', 'open wiper'],
    ...alike(
      size.fingers.map((f) => [
        f.name,
        `${f.cornersV[0].toFixed(3)}-${f.cornersV[1].toFixed(3)} V`,
        `${ohmWords(f.settling.sourceOhm)}`,
        `${f.settling.settlingMs.toFixed(2)} ms`,
        f.settling.cutoffHz === null ? 'none' : `${f.settling.cutoffHz.toFixed(0)} Hz`,
        f.openWiper.flaggedMs === null ? 'not seen' : `${f.openWiper.flaggedMs.toFixed(0)} ms`,
      ]),
    ),
  ]);
  say(aboutSettling(size));
  for (const text of new Set(size.fingers.map((f) => aboutLoading(f)))) if (text !== '') say(text);
  for (const proposals of size.resistors) {
    lines.push('');
    say(resistorHeading(proposals, size.resistors.length));
    table([['resistors', 'top', 'bottom', 'pin, all tolerances', 'span'], ...resistorRows(proposals)]);
  }
  lines.push('');
  table([
    ['finger', 'lowest supply', 'sag', 'with rail', 'pick-up', 'dead end', 'life, h'],
    ...alike(
      size.fingers.map((f) => [
        f.name,
        `${f.supply.readingPct.toFixed(1)} % (${f.supply.counts.toFixed(0)})`,
        `${f.supply.sagPct.toFixed(2)} %`,
        `${f.supply.withRailPct.toFixed(2)} %`,
        `${f.pickUp.wanderPct.toFixed(2)} %`,
        `${f.ends.deadPct.toFixed(1)} %`,
        hoursWords(f.life, '-'),
      ]),
    ),
  ]);
  say(ABOUT_SUPPLY);
  return lines;
}

/** Rows that say the same made one, headed by all their names. */
export function alike(rows: string[][]): string[][] {
  const found = new Map<string, string[]>();
  for (const [name, ...cells] of rows) {
    const key = cells.join('\n');
    found.set(key, [...(found.get(key) ?? []), name!]);
  }
  return [...found].map(([key, names]) => [
    found.size === 1 && names.length > 1 ? 'all' : names.join(', '),
    ...key.split('\n'),
  ]);
}

/** One sentence or two on time: the same for all fingers but for the capacitor. */
export function aboutSettling(size: WiringSize): string {
  const { settling } = size.fingers[0]!;
  const proposals = [...new Set(size.fingers.map(({ settling: s }) => s.proposedF))];
  const proposed =
    proposals.length === 1 && proposals[0] !== null
      ? ` ${faradWords(proposals[0]!)} is the largest capacitor that settles in half a frame.`
      : '';
  const multiplexed = size.hasMultiplexer
    ? ` Behind the multiplexer the capacitors belong at its inputs: on its common line a reading would have to settle in the ${(1000 * settling.betweenReadsMs).toFixed(0)} µs between two.`
    : '';
  return `A step is within half a count after ${settling.timeConstants.toFixed(2)} time constants; a frame lasts ${settling.frameMs.toFixed(1)} ms, two readings of a pin lie ${(1000 * settling.betweenReadsMs).toFixed(0)} µs apart, so readings of one frame share what the capacitor holds.${proposed}${multiplexed}`;
}

/** What the pull-down bends; empty without one. */
export function aboutLoading({ loading }: FingerWiring): string {
  if (loading.errorPct === 0) return '';
  return `The resistor to ground makes the pin read at most ${loading.errorPct.toFixed(2)} % of the supply too low, at ${(100 * loading.at).toFixed(0)} % of the travel. It does so every time: calibrating both ends leaves ${loading.leftByEndsPct.toFixed(2)} % of closure, five points leave ${loading.leftByFivePct.toFixed(2)} %.`;
}

/** Which potentiometers a table of resistors is for. */
export function resistorHeading(proposals: ResistorProposals, tables: number): string {
  const who = tables === 1 ? 'all fingers' : proposals.fingers.join(', ');
  const pull = proposals.pullDownOhm > 0 ? `${ohmWords(proposals.pullDownOhm)} to ground` : 'none to ground';
  return `Resistors for ${ohmWords(proposals.potOhm)} ${toleranceWords(proposals.potTolerance)}, ${pull} (${who}):`;
}

/** What is planned and what is proposed, as cells. */
export function resistorRows({ now, series }: ResistorProposals): string[][] {
  const cells = (pair: {
    topOhm: number;
    bottomOhm: number;
    lowestV: number;
    highestV: number;
    spanV: number;
  }) => [
    wire(pair.topOhm),
    wire(pair.bottomOhm),
    `${pair.lowestV.toFixed(4)}-${pair.highestV.toFixed(4)} V`,
    `${pair.spanV.toFixed(3)} V`,
  ];
  return [
    [`planned ${toleranceWords(now.tolerance)}`, ...cells(now)],
    ...series.map(({ series: name, tolerance, pair }) => [
      `${name} ${toleranceWords(tolerance)}`,
      ...(pair ? cells(pair) : ['none fits', '', '', '']),
    ]),
  ];
}

function wire(ohm: number): string {
  return ohm === 0 ? 'a wire' : ohmWords(ohm);
}

/** Hours of use, fast to slow. */
export function hoursWords({ fastHours, slowHours }: FingerWiring['life'], dash: string): string {
  const words = (hours: number) => hours.toFixed(hours < 100 ? 1 : 0);
  return `${words(fastHours)}${dash}${words(slowHours)}`;
}

/** How to read the columns on supply, pick-up and life. */
export const ABOUT_SUPPLY =
  'Supply: what its lowest voltage takes from the reading of the closed hand, in counts too; sag: the part of the closure that no calibration takes out; with rail: what is left of all that, of full scale, once a pin measures the rail. Pick-up: slow wander where the resistance behind the pin is highest, of closure, before smoothing. Life: at one flex a second and at one in 5 s; noise has then grown threefold.';
