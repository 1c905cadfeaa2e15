import type { Brakes, Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { faradWords } from '../value-words.ts';
import { E6, valueAbove } from '../wiring/series.ts';
import { bufferF } from './power.ts';

/** Force at which the slip clutch must let go, N: a finger can still pull through. Assumed. */
export const MOST_CLUTCH_N = 10;
/**
 * Time until a supply with its leads answers a starting servo, s, and by how much its voltage may fall meanwhile, V.
 * Assumed; together they ask for the size of capacitor that cured boards which restarted (1000 µF in
 * dorianborian/sesame-robot#33 and engineertype/ControLeo2#10, where 220 µF had not).
 */
const SERVO_ANSWER_S = 200e-6;
const SERVO_DIP_V = 0.5;

export interface BrakePlan {
  count: number;
  /** All servos held at once, A. */
  stallA: number;
  /** Capacitor for all servos that start at once, and for one after the other, F. */
  togetherF: number;
  staggeredF: number;
  /** What the plan lacks to be safe; with anything in it the plan is refused. */
  lacks: string[];
  margins: Margin[];
}

/** Judges planned brakes: people get hurt where a string is held and nothing lets it go. */
export function brakePlan(brakes: Brakes, mostCellA: number): BrakePlan {
  const count = brakes.pins.length;
  return {
    count,
    stallA: count * brakes.stallA,
    togetherF: servoCapacitorF(count * brakes.stallA),
    staggeredF: servoCapacitorF(brakes.stallA),
    lacks: lacksOf(brakes),
    margins: [...safetyMargins(brakes), ...supplyMargins(brakes, mostCellA)],
  };
}

/** The next larger E6 capacitor that carries a starting current until the supply answers, F. */
function servoCapacitorF(startA: number): number {
  return valueAbove(E6, bufferF(startA, SERVO_ANSWER_S, SERVO_DIP_V) * 1e12) / 1e12;
}

/** What a plan needs and does not have, a few words each. */
export function lacksOf({ clutchN, hasCutOff, supply }: Brakes): string[] {
  const lacks: string[] = [];
  if (clutchN === undefined) lacks.push('no slip clutch');
  else if (clutchN > MOST_CLUTCH_N) lacks.push(`a slip clutch that holds ${clutchN} N`);
  if (!hasCutOff) lacks.push('no hardware cut-off');
  if (supply !== 'own') lacks.push('no supply of their own');
  return lacks;
}

const REFUSED = 'the plan is refused without it, since people get hurt';

function about(): Pick<Margin, 'group' | 'fingers' | 'isSoft'> {
  return { group: 'power', fingers: [], isSoft: false };
}

function safetyMargins(brakes: Brakes): Margin[] {
  const { clutchN, hasCutOff, supply } = brakes;
  return [
    {
      ...about(),
      what: 'slip clutch of the brakes',
      ratio: clutchN === undefined ? 0 : MOST_CLUTCH_N / clutchN,
      seen: clutchN === undefined ? 'none' : `${clutchN} N`,
      allowed: `at most ${MOST_CLUTCH_N} N; ${REFUSED}`,
      cure: `a clutch that slips at ${MOST_CLUTCH_N} N or less, so that any finger can pull through a jammed brake`,
    },
    {
      ...about(),
      what: 'hardware cut-off of the brakes',
      ratio: hasCutOff ? 2 : 0,
      seen: hasCutOff ? 'planned' : 'none',
      allowed: `a switch that frees every finger without the program; ${REFUSED}`,
      cure: 'a switch in the servos’ supply that opens by itself when the board goes silent, and stops that are free without power',
    },
    {
      ...about(),
      what: 'supply of the brakes',
      ratio: supply === 'own' ? 2 : 0,
      seen: supply === 'own' ? 'their own' : 'the board’s cell',
      allowed: `a supply of their own; ${REFUSED}`,
      cure: 'a second supply for the servos, with its ground joined to the board’s: servos that start together restart a board on the same supply',
    },
  ];
}

function supplyMargins(brakes: Brakes, mostCellA: number): Margin[] {
  const stallA = brakes.pins.length * brakes.stallA;
  const asked = `${stallA.toFixed(2)} A when all ${brakes.pins.length} servos are held`;
  if (brakes.supply === 'cell') {
    return [
      {
        ...about(),
        what: 'current of the servos from the board’s cell',
        ratio: mostCellA / stallA,
        seen: asked,
        allowed: `at most ${mostCellA.toFixed(2)} A from this cell`,
        cure: 'a supply of their own for the servos: a small cell overheats, and the board restarts as they start',
      },
    ];
  }
  const margins: Margin[] = [
    {
      ...about(),
      isSoft: brakes.supplyA === undefined,
      what: 'current that the servos’ own supply gives',
      ratio: (brakes.supplyA ?? 0) / stallA,
      seen: brakes.supplyA === undefined ? 'not stated' : `${brakes.supplyA.toFixed(2)} A`,
      allowed: `at least ${asked}`,
      cure: 'a stronger supply for the servos, written as "supplyCurrent"',
    },
  ];
  const staggeredF = servoCapacitorF(brakes.stallA);
  margins.push({
    ...about(),
    isSoft: true,
    what: 'capacitor beside the servos',
    ratio: (brakes.capacitorF ?? 0) / staggeredF,
    seen: brakes.capacitorF ? faradWords(brakes.capacitorF) : 'none',
    allowed: `at least ${faradWords(staggeredF)} with starts one after the other`,
    cure: `${faradWords(servoCapacitorF(stallA))} beside the servos if they may start together (boards restarted until 1000 µF was added: dorianborian/sesame-robot#33), and starts one after the other`,
  });
  return margins;
}

/** The plan of a rig's brakes; null when it has none. */
export function brakePlanOf(rig: Rig, mostCellA: number): BrakePlan | null {
  return rig.brakes ? brakePlan(rig.brakes, mostCellA) : null;
}
