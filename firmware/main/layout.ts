/* Host only. Where each reading of a frame lies, and the structure of the program. */
import { FIRST_VALUE_WORD } from '../../protocol/frame.ts';
import type { BoardPlan } from './board-plan.ts';
import type { Build } from './program.ts';

/** Readings of a frame in the order in which they are taken. */
export interface Layout {
  /** Pin of each reading. */
  pins: number[];
  /** Summed readings of each wired finger: from, and behind the last. */
  sums: [start: number, end: number][];
  /** All readings of each wired finger, thrown away ones included. */
  spans: [start: number, end: number][];
  /** First reading that hangs on no multiplexer. */
  directStart: number;
  railSum: [start: number, end: number];
  axes: number[];
}

export function layoutOf(plan: BoardPlan): Layout {
  const { oversampling } = plan.settings;
  const pins: number[] = [];
  const sums: [number, number][] = [];
  const spans: [number, number][] = [];
  const isMultiplexed = plan.selectPins.length > 0;
  for (const finger of plan.fingers) {
    const start = pins.length;
    const reads = oversampling + (plan.dummyRead ? 1 : 0);
    for (let i = 0; i < reads; i++) pins.push(finger.pin);
    spans.push([start, pins.length]);
    sums.push([pins.length - oversampling, pins.length]);
  }
  const directStart = isMultiplexed ? pins.length : 0;
  const railStart = pins.length;
  if (plan.rail) for (let i = 0; i < oversampling; i++) pins.push(plan.rail.pin);
  const railEnd = pins.length;
  const axes = plan.axisPins.map((pin) => pins.push(pin) - 1);
  return { pins, sums, spans, directStart, railSum: [railStart, railEnd], axes };
}

/** Silence from which on the chain starts afresh, frames. Assumed: longer than any hiccup, shorter than a movement. */
const GAP_FRAMES = 10;
/** Time for which a button must have settled, s. Contacts of small push buttons bounce for a few ms: common practice. */
const DEBOUNCE_S = 0.02;

export function buildOf(plan: BoardPlan, layout: Layout): Build {
  const periodS = 1 / plan.frameRateHz;
  const slots = plan.fingers.map((f) => f.slot);
  return {
    periodS,
    gapS: GAP_FRAMES * periodS,
    healthFrames: Math.max(1, Math.round(plan.frameRateHz)),
    frameRateHz: Math.min(255, Math.round(plan.frameRateHz)),
    rightHand: plan.facts.rightHand,
    programId: plan.facts.programId,
    oversampling: plan.settings.oversampling,
    readsEach: plan.settings.oversampling + (plan.dummyRead ? 1 : 0),
    readsDropped: plan.dummyRead ? 1 : 0,
    slots,
    firstPlace: FIRST_VALUE_WORD,
    places: slots.map((slot) => FIRST_VALUE_WORD + slot),
    pins: plan.fingers.map((f) => f.pin),
    channels: plan.selectPins.length > 0 ? plan.fingers.map((f) => f.channel) : [],
    dummyRead: plan.dummyRead,
    railNominal: plan.rail?.nominal ?? 0,
    railMv: plan.rail?.supplyMv ?? 0,
    axes: layout.axes,
    buttons: plan.buttonPins.length,
    debounceSteps: Math.max(1, Math.round(DEBOUNCE_S / periodS)),
    openBelow: plan.fingers.map((f) => f.openBelow * plan.settings.oversampling),
    wired: slots.reduce((bits, slot) => bits | (1 << slot), 0),
    hasLink: plan.frameUart !== 'console',
    watched: plan.watched,
  };
}
