/** The specialised program in all its variants. */
import type { Settings } from '../../firmware/chain/settings.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { layoutOf } from '../../firmware/main/layout.ts';
import { parseSource } from '../../specialise/source.ts';
import { specialise } from '../../specialise/specialise.ts';
import { readBoardSource } from '../../workbench/bundle/board-source.ts';
import { makeProgram } from '../../workbench/bundle/make-program.ts';
import { nativesOf } from '../../workbench/bundle/natives.ts';
import { programTree } from '../../workbench/bundle/program-tree.ts';
import { KEPT } from '../../workbench/bundle/routine-names.ts';
import type { FrameProgram } from './callgrind.ts';

export interface Variant {
  name: string;
  /** `frame`: chain and frame alone. `program`: all that runs on a board. */
  kind: 'frame' | 'program';
  program: () => Promise<FrameProgram>;
}

// The random stand-in moves a sum of eight by 0.8 (sd): a clip of 60 % of a span of 5.6 lets nearly all of it through,
// as a clip does in use.
const CLIP = { kind: 'clip', limitPct: 60 } as const;
const NO_CLIP = { kind: 'none' } as const;
const ADAPTIVE = { kind: 'adaptive', restCutoffHz: 1, riseHz: 60 } as const;
const STILL = { kind: 'still', widthPct: 0.7 } as const;

const DEFAULT: Settings = { oversampling: 8, despike: CLIP, lowPass: ADAPTIVE, hysteresis: STILL };

function planOf(settings: Partial<Settings>, more: Partial<BoardPlan> = {}): BoardPlan {
  return {
    settings: { ...DEFAULT, ...settings },
    frameRateHz: 100,
    facts: { programId: 1, settingsId: 1, rightHand: true },
    fingers: [0, 1, 2, 3, 4].map((slot) => ({
      slot,
      // the stand-in for a resting read, a square root, gives 0 for pin 0: that must lie between the ends
      pin: 0,
      channel: -1,
      ends: { open: 0.004 * slot, closed: 0.7 - 0.003 * slot },
      openBelow: 0,
    })),
    dummyRead: false,
    rail: undefined,
    axisPins: [],
    buttonPins: [],
    selectPins: [],
    watched: true,
    watchdogS: 0,
    attenuationMv: 3600,
    frameUart: 'console',
    ...more,
  };
}

/** Reads, filters, packs, checks and sends: what a frame cannot do without. */
const BARE = `
function bareFrame(p) {
  p.io.acquire();
  stepHand(p, 1);
  writeHeader(p.io.bytes, p.io.words, p.run.sequence, (p.io.now() - p.run.startS) * 4000);
  p.run.sequence = p.run.sequence + 1;
  writeCheckOf(p.io.words, p.io.crc());
  p.io.send();
}
function poke(p, x) {
  p.run.startS = x;
  for (let i = 0; i < p.constants.length; i++) {
    const k = p.constants[i];
    ${[
      'limit',
      'limitSquared',
      'bandSquared',
      'gain',
      'base',
      'rise',
      'speedGain',
      'half',
      'wordGain',
      'wordOffset',
    ]
      .map((key) => `k.${key} = x;`)
      .join('')}
  }
}
`;

/** @param change of the finished text */
function frameOf(plan: BoardPlan, change = (text: string) => text): () => Promise<FrameProgram> {
  return async () => {
    const layout = layoutOf(plan);
    const natives = nativesOf(plan, layout, 'Serial1');
    const tree = programTree(plan, layout, natives.io);
    const source = parseSource(readBoardSource().source.text + BARE);
    // `poke` writes all live numbers, so that none is folded; it does not go into the text
    const requests = [
      { name: 'bareFrame', known: [tree], isHot: true },
      { name: 'poke', known: [tree], isHot: false },
    ];
    const made = specialise(source, requests, KEPT, natives.all);
    const routines = made.routines.filter((r) => r.name !== 'poke');
    const text = [
      made.declarations,
      made.initialisers,
      ...routines.map((r) => r.pieces.map((piece) => piece.text).join('')),
    ].join('\n');
    return {
      text: change(text),
      call: `${routines.find((r) => r.name === 'bareFrame')!.shortName}()`,
    };
  };
}

function programOf(plan: BoardPlan): () => Promise<FrameProgram> {
  return async () => {
    const { text, tickName } = await makeProgram(plan);
    const due = /\)>=[.\w]+\|\|(\w+)<0\)/;
    if (!due.test(text)) throw new Error('the test for a due tick is not where it was');
    return {
      text: text
        // frames follow each other without a pause: each is due
        .replace(due, ')>=0||$1<0)')
        .replace(/global\[E\.getConsole\(\)\]/g, 'Serial1')
        .replace(`setInterval(${tickName},10)`, '0')
        .replace('echo(0);', '')
        // pins that this build does not have
        .replace(/pinMode\([^)]*\);/g, '')
        .replace(/digitalRead\.bind\(null,[^)]*\)/, 'Math.sqrt.bind(null,225)')
        .replace(/digitalWrite\.bind\(null,[^)]*\)/, 'Math.sqrt'),
      call: `${tickName}()`,
    };
  };
}

const WITHOUT = {
  oversampling: 8,
  despike: NO_CLIP,
  lowPass: { kind: 'none' },
  hysteresis: { kind: 'none' },
} as const;

export function variants(): Variant[] {
  const frame = (name: string, settings: Partial<Settings>): Variant => ({
    name,
    kind: 'frame',
    program: frameOf(planOf(settings)),
  });
  const program = (name: string, settings: Partial<Settings>, more: Partial<BoardPlan>): Variant => ({
    name,
    kind: 'program',
    program: programOf(planOf(settings, more)),
  });
  const oneEuro = { kind: 'oneEuro', minCutoffHz: 1, beta: 3, speedCutoffHz: 1 } as const;
  const held = { kind: 'drag', widthPct: 0.7, stillPct: 0.5 } as const;
  return [
    frame('default', {}),
    {
      name: 'default, words not kept in their range',
      kind: 'frame',
      program: frameOf(planOf({}), (text) => text.replace(/;if\(\w\*\w+>>16\)\{[^}]*\}/g, '')),
    },
    frame('default without clip', { despike: NO_CLIP }),
    frame('default, 4 readings', { oversampling: 4 }),
    frame('separate stages', { hysteresis: held }),
    frame('separate stages, one euro', { lowPass: oneEuro, hysteresis: held }),
    frame('no stage', WITHOUT),
    frame('exponential', { ...WITHOUT, lowPass: { kind: 'exponential', cutoffHz: 5 } }),
    frame('adaptive', { ...WITHOUT, lowPass: ADAPTIVE }),
    frame('one euro', { ...WITHOUT, lowPass: oneEuro }),
    frame('median', { ...WITHOUT, despike: { kind: 'median' } }),
    frame('adaptive, clip', { ...WITHOUT, lowPass: ADAPTIVE, despike: CLIP }),
    frame('adaptive, still', { ...WITHOUT, lowPass: ADAPTIVE, hysteresis: STILL }),
    frame('adaptive, drag', { ...WITHOUT, lowPass: ADAPTIVE, hysteresis: { kind: 'drag', widthPct: 0.7 } }),
    frame('adaptive, step', { ...WITHOUT, lowPass: ADAPTIVE, hysteresis: { kind: 'step', widthPct: 0.7 } }),
    program('program', {}, {}),
    program('program, wipers not watched', {}, { watched: false }),
    program('program, rail', {}, { rail: { pin: 0, nominal: 0.5, supplyMv: 3300 } }),
    program('program, joystick', {}, { axisPins: [0, 0] }),
    program('program, 4 buttons', {}, { buttonPins: [18, 19, 21, 22] }),
    program(
      'program, multiplexer',
      {},
      {
        selectPins: [25, 26, 27],
        fingers: planOf({}).fingers.map((f) => ({ ...f, channel: f.slot })),
      },
    ),
  ];
}
