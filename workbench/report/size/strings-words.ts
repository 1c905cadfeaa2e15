import { type LostMotion, PARTS } from '../../../sim/sizing/strings/guide-size.ts';
import { type Clash, isClash, type Stretch } from '../../../sim/sizing/strings/preload-range.ts';
import { alike, type FingerStrings, type StringsSize } from '../../../sim/sizing/strings/strings-size.ts';
import { MNM_PER_GF_CM } from '../../../sim/spool/force.ts';
import { SAFETY_TURNS } from '../../../sim/spool/groove.ts';
import { MOST_TRAVEL_SHARE } from '../../../sim/spool/radius.ts';

/** What the parts of lost motion are called. */
export const PART_WORDS: Record<keyof LostMotion, string> = {
  friction: 'friction on a soft anchor',
  play: 'play of string and spool',
  backlash: 'backlash of the shaft',
  stretch: 'stretch of the string',
};

export const SPOOL_HEADS = [
  'finger',
  'string drawn',
  'spool turns',
  'travel',
  'spool',
  'proposed',
  'a count',
];
export const SPRING_HEADS = ['finger', 'torque', 'return', 'taut from', 'pull', 'across the tip'];
export const PRELOAD_HEADS = ['finger', 'now', 'works', 'does not tire', 'steady when open'];
export const GUIDE_HEADS = ['finger', 'pull grows', 'lost', 'at the knuckle', 'of the stroke', 'most by'];

/** `index to little` for fingers in a row, `thumb`, or `index, ring`; `all fingers`. */
export function namesOf(names: readonly string[], size: StringsSize): string {
  if (names.length === size.fingers.length && names.length > 1) return 'all fingers';
  const first = size.fingers.findIndex((finger) => finger.name === names[0]);
  const isRow = names.every((name, i) => size.fingers[first + i]!.name === name);
  return names.length > 2 && isRow ? `${names[0]} to ${names[names.length - 1]}` : names.join(', ');
}

type Row = (finger: FingerStrings, names: string) => string[];

function rows(size: StringsSize, row: Row): string[][] {
  return alike(size).map(({ names, finger }) => row(finger, namesOf(names, size)));
}

export function spoolRows(size: StringsSize): string[][] {
  return rows(size, ({ spool }, names) => [
    names,
    `${pair(spool.strokesMm, 1)} mm`,
    `${pair(spool.turnsDeg, 0)} deg`,
    `${(100 * spool.worstShare).toFixed(0)} %`,
    `${spool.radiusMm} mm`,
    spool.worstShare > MOST_TRAVEL_SHARE ? `${spool.proposedRadiusMm} mm` : 'as it is',
    `${spool.mmPerCount.toFixed(3)} mm`,
  ]);
}

export function springRows(size: StringsSize): string[][] {
  return rows(size, ({ spring }, names) => [
    names,
    `${ends(spring.torque.meanMNm, 2)} mN·m`,
    `${spring.returnFactor.toFixed(2)} x`,
    spring.fastestTautMs === null ? 'never' : `${spring.fastestTautMs.toFixed(0)} ms`,
    `${pair([spring.pullsN.openIn, spring.pullsN.closedOut], 2)} N`,
    `${pair(spring.acrossN, 2)} N`,
  ]);
}

export function preloadRows(size: StringsSize): string[][] {
  return rows(size, ({ spring: { preload } }, names) => [
    names,
    preload.nowTurns === null ? `${preload.nowMNm.toFixed(2)} mN·m` : `${preload.nowTurns.toFixed(2)} turns`,
    shortStretch(preload.works),
    shortStretch(preload.comfortable),
    shortStretch(preload.steady),
  ]);
}

export function guideRows(size: StringsSize): string[][] {
  return rows(size, ({ guides }, names) => [
    names,
    `${guides.ratio.toFixed(2)} x`,
    `${guides.lostMm.toFixed(2)} mm`,
    `${guides.lostDeg.toFixed(1)} deg`,
    `${(100 * guides.lostShare).toFixed(1)} %`,
    PART_WORDS[guides.dominant].replace(/ .*/, ''),
  ]);
}

/** String to cut, and how it lies on the spool. */
export function spoolNotes(size: StringsSize): string[] {
  const cuts = size.fingers.map(({ name, spool }) => `${name} ${spool.string.cutMm} mm`);
  const most = size.fingers.reduce((a, b) => (b.spool.turnsOnSpool > a.spool.turnsOnSpool ? b : a)).spool;
  const notes = [
    `String to cut: ${cuts.join(', ')}; ${(size.stringMm / 1000).toFixed(2)} m in all, with ${SAFETY_TURNS} turns that stay on the spool and two knots.`,
    `Up to ${most.turnsOnSpool.toFixed(1)} turns lie on a spool. Side by side they need a groove of ${most.oneLayerWidthMm.toFixed(1)} mm; one on the other, in a groove of ${most.oneGrooveWidthMm.toFixed(1)} mm, the turn grows by ${(100 * most.oneGrooveGrowth).toFixed(1)} % over the stroke.`,
  ];
  const least = Math.min(...size.fingers.map(({ spool }) => spool.counts[0]));
  const coarsest = Math.min(...size.fingers.map(({ spool }) => spool.countsPerDeg));
  notes.push(
    `At least ${least.toFixed(0)} counts of 4096 lie between open and closed on the smallest hand, ${coarsest.toFixed(1)} to a degree of the spool.`,
  );
  const dead = size.fingers.filter(({ spool }) => spool.deadShare > 0);
  for (const { name, spool } of dead) {
    notes.push(
      `${capital(name)}: the spool turns further than the track reaches. With a part of short travel nothing moves over the first and last ${(100 * spool.deadShare).toFixed(0)} % of the stroke${spool.isStopped ? ', and the shaft meets its end stop' : ''}.`,
    );
  }
  return notes;
}

/** What returns, how fast, and what a stiff potentiometer does. */
export function springNotes(size: StringsSize): string[] {
  const notes: string[] = [];
  for (const { names, finger } of alike(size)) {
    const { spring } = finger;
    const who = capital(namesOf(names, size));
    if (spring.staticFactor !== null && spring.staticFactor <= 1) {
      notes.push(
        `${who}: will not retract. The spring winds in with ${spring.torque.inMNm[0]!.toFixed(2)} mN·m, a stiff potentiometer holds with ${spring.stiffDragMNm.toFixed(2)} mN·m.`,
      );
    }
    for (const opening of spring.openings) {
      if (opening.isTaut || !opening.comesBack) continue;
      notes.push(
        `${who}: opened in ${opening.timeMs.toFixed(0)} ms the string hangs slack for ${opening.slackMs.toFixed(0)} ms, by ${opening.slackMm.toFixed(1)} mm at most.`,
      );
    }
    if (spring.strip) {
      const { stressMPa, turnsUsed, barrelTurns, barrelRadiusMm, isProposed } = spring.strip;
      notes.push(
        `${who}: the strip is bent to ${stressMPa.toFixed(0)} MPa and turns ${turnsUsed.toFixed(1)} times of ${barrelTurns.toFixed(1)} in ${isProposed ? 'a proposed' : 'its'} barrel of ${barrelRadiusMm} mm radius; makers count on a fifth less (from memory).`,
      );
    }
    const { works } = spring.preload;
    if (!isClash(works) && works.fromTurns !== null && works.fromTurns < 1) {
      notes.push(`${who}: keep one turn of preload at least; close to unwound a spring weakens fast.`);
    }
    const pull = spring.preload.steady;
    if (isClash(pull)) notes.push(`${who}: ${clashWords(pull)}`);
  }
  // Pulls that were measured contain the drag: then nothing is left to warn of.
  if (size.fingers.every(({ spring }) => spring.dragMNm === 0)) return notes;
  const worst = size.fingers.reduce((a, b) => (b.spring.ratedFactor < a.spring.ratedFactor ? b : a)).spring;
  const band = worst.ratedDragMNm.map((mNm) => mNm.toFixed(2)).join('-');
  const most = Math.min(...size.fingers.map(({ spring }) => spring.mostDragMNm));
  notes.push(
    worst.ratedFactor > 1
      ? `A common 9 mm potentiometer may take ${band} mN·m to turn (datasheet): these springs return even the stiffest.`
      : `A common 9 mm potentiometer may take ${band} mN·m to turn (datasheet); these springs return those of up to ${most.toFixed(2)} mN·m (${(most / MNM_PER_GF_CM).toFixed(0)} gf·cm). Turn each part before you solder it, and put the stiff ones back.`,
  );
  return notes;
}

export function guideNotes(size: StringsSize): string[] {
  const notes: string[] = [];
  for (const { names, finger } of alike(size)) {
    const { guides } = finger;
    const split = PARTS.filter((part) => guides.lost[part] > 0).map(
      (part) => `${PART_WORDS[part]} ${guides.lost[part].toFixed(guides.lost[part] < 0.1 ? 3 : 2)} mm`,
    );
    const text = split.length > 0 ? split.join(', ') : 'nothing is lost';
    notes.push(`${capital(namesOf(names, size))}: ${text}.`);
  }
  const [first] = size.fingers;
  notes.push(
    `The open hand's reading drifts by as much with play. Each degree of backlash between spool and shaft costs ${first!.guides.backlashMmPerDeg.toFixed(2)} mm more (${first!.name}).`,
  );
  return notes;
}

function clashWords(clash: Clash): string {
  return `no preload keeps the open string steady as well: ${clash.least.words} (${clash.least.openTorqueMNm.toFixed(2)} mN·m), but ${clash.most.words} (${Math.max(0, clash.most.openTorqueMNm).toFixed(2)} mN·m). Cure: ${clash.cure}.`;
}

function shortStretch(stretch: Stretch | Clash): string {
  if (isClash(stretch)) return 'none';
  if (stretch.fromTurns === null || stretch.toTurns === null) {
    return `${stretch.fromMNm.toFixed(2)}-${stretch.toMNm.toFixed(2)} mN·m`;
  }
  return `${stretch.fromTurns.toFixed(2)}-${stretch.toTurns.toFixed(2)}`;
}

const pair = ([low, high]: readonly [number, number], decimals: number) =>
  `${low.toFixed(decimals)}-${high.toFixed(decimals)}`;
const ends = (list: readonly number[], decimals: number) =>
  pair([list[0]!, list[list.length - 1]!], decimals);
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
