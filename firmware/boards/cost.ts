/* Host only: what a chain costs on a board, from the figures of cost-figures.ts. */
import type { Settings } from '../chain/settings.ts';
import type { BoardPlan } from '../main/board-plan.ts';
import type { BoardId } from './board.ts';
import { boardFacts } from './boards.ts';
import { COST_FIGURES, type CostPart, CYCLES_PER_INSTRUCTION } from './cost-figures.ts';

export interface FrameCost {
  /** Interpreter instructions a frame, all fingers moving. */
  instructions: number;
  /** Time in the ADC driver, µs. */
  adcUs: number;
  /** Time in the interpreter, ms; good to a factor of 2. */
  cpuMs: number;
  /** Both, ms. */
  totalMs: number;
}

/** How often a frame goes through each part. */
export type PartCounts = { [part in CostPart]?: number };

/** Instructions of a frame program made of these parts. */
export function programInstructions(counts: PartCounts): number {
  let sum = 0;
  for (const part in counts) {
    const known = part as CostPart;
    sum += COST_FIGURES[known].instructions * (counts[known] || 0);
  }
  return sum;
}

/** The parts of the board program for these settings. */
export function chainParts(chain: Settings & { fingers: number }): PartCounts {
  const fingers = chain.fingers;
  const readings = fingers * chain.oversampling;
  const counts: PartCounts = {
    frame: 1,
    header: 1,
    sequence: 1,
    acquire: readings,
    sumElement: readings,
    fingerSum: fingers,
    fingerPack: fingers,
    offset: fingers,
    saturate: fingers,
    main: 1,
    wiperCheck: fingers,
  };
  if (chain.despike.kind !== 'none') counts[chain.despike.kind] = fingers;
  if (chain.lowPass.kind !== 'none') counts[chain.lowPass.kind] = fingers;
  if (chain.hysteresis.kind !== 'none') counts[chain.hysteresis.kind] = fingers;
  if ('stillPct' in chain.hysteresis) counts.still = fingers;
  return counts;
}

/** The parts of a whole program: what the rig has beside its strings comes on top of the chain. */
export function programParts(plan: BoardPlan): PartCounts {
  const fingers = plan.fingers.length;
  const counts = chainParts({ ...plan.settings, fingers });
  counts.acquire = readingsOf(plan);
  counts.wiperCheck = plan.watched ? fingers : 0;
  counts.rail = plan.rail ? 1 : 0;
  counts.axis = plan.axisPins.length;
  counts.buttons = plan.buttonPins.length > 0 ? 1 : 0;
  counts.select = plan.selectPins.length > 0 ? fingers : 0;
  return counts;
}

/** Analog reads of a frame, thrown away ones included. */
function readingsOf(plan: BoardPlan): number {
  const each = plan.settings.oversampling + (plan.dummyRead ? 1 : 0);
  return plan.fingers.length * each + (plan.rail ? plan.settings.oversampling : 0) + plan.axisPins.length;
}

/** Cost of one frame of a whole program. */
export function programCost(plan: BoardPlan, board: BoardId): FrameCost {
  const facts = boardFacts(board);
  const instructions = programInstructions(programParts(plan));
  const cpuMs = (instructions * CYCLES_PER_INSTRUCTION * 1000) / facts.clockHz;
  const adcUs = readingsOf(plan) * facts.readUs;
  return { instructions, adcUs, cpuMs, totalMs: cpuMs + adcUs / 1000 };
}

/**
 * Cost of one frame.
 * @param chain the settings and how many fingers (1-5) they run on
 * @param board default: the ESP32
 */
export function frameCost(chain: Settings & { fingers: number }, board: BoardId = 'esp32'): FrameCost {
  const facts = boardFacts(board);
  const readings = chain.fingers * chain.oversampling;
  const instructions = programInstructions(chainParts(chain));
  const cpuMs = (instructions * CYCLES_PER_INSTRUCTION * 1000) / facts.clockHz;
  const adcUs = readings * facts.readUs;
  return { instructions, adcUs, cpuMs, totalMs: cpuMs + adcUs / 1000 };
}

/**
 * Share of the frame time that the board spends; above 1 the board cannot keep the rate.
 * @param frameRateHz > 0
 */
export function frameShare(settings: Settings, fingers: number, board: BoardId, frameRateHz: number): number {
  return (frameCost({ ...settings, fingers }, board).totalMs * frameRateHz) / 1000;
}
