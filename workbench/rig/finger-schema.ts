import { z } from 'zod';
import { ADC_PIN, mapping, pinNumber, pushIssue, quantity, whole } from './field.ts';
import { guidesSchema } from './guide-schema.ts';
import { springFromPulls } from './spring-pulls.ts';
import { stripSchema } from './strip-schema.ts';

const pull = mapping({
  stringOut: quantity('length', 0, 1000),
  in: quantity('force', 0, 50, true),
  out: quantity('force', 0, 50, true),
});

/** Checks that no radius can change: order of the pulls, enough lengths, a spring that gets stronger. */
const pulls = z
  .array(pull)
  .min(2)
  .max(100)
  .transform((rows, ctx) => {
    const weak = rows.find((row) => row.out < row.in);
    if (weak) {
      return pushIssue(ctx, rows, {
        seen: `drawing out pulls ${weak.out} N, taking in ${weak.in} N`,
        expected: 'a pull out at least as strong as the pull in: friction works against either motion',
        next: 'swap "in" and "out", or measure again',
      });
    }
    if (new Set(rows.map((row) => row.stringOut)).size < 2) {
      return pushIssue(ctx, rows, {
        seen: 'all pulls at one length',
        expected: 'pulls at two or more lengths of string',
        next: 'measure once with the finger open (0 mm) and once near full closure',
      });
    }
    const list = rows.map((row) => ({ stringOutMm: row.stringOut, inN: row.in, outN: row.out }));
    const spring = springFromPulls(list, 1);
    if (spring.perTurnMNm < 0 || spring.openTorqueMNm <= 0) {
      return pushIssue(ctx, rows, {
        seen:
          spring.perTurnMNm < 0
            ? 'a pull that falls as the string comes out'
            : 'a line of pulls that starts below 0 N',
        expected: 'a pull that is above 0 N with the finger open and does not fall',
        next: 'check that "stringOut" grows as the finger closes, then measure again',
      });
    }
    if (spring.frictionShare > 0.5) {
      return pushIssue(ctx, rows, {
        seen: `friction of ${Math.round(spring.frictionShare * 100)} % of the spring`,
        expected: 'at most 50 %',
        next: 'measure right at the spool, without guides, and look for rubbing',
      });
    }
    return list;
  });

/** All that a finger may say; anything left out comes from `eachFinger`, then from the defaults. */
const shape = {
  momentArms: z
    .array(quantity('length', 0, 40))
    .length(3)
    .optional(),
  joints: mapping({
    circumferences: z.array(quantity('length', 20, 150)).length(3),
    guideHeight: quantity('length', 0, 30),
  }).optional(),
  guides: guidesSchema.optional(),
  play: quantity('length', 0, 5).optional(),
  anchor: quantity('stiffness', 0.01, 1000).optional(),
  spool: mapping({
    radius: quantity('length', 2, 100).optional(),
    string: quantity('length', 0.05, 3).optional(),
    backlash: quantity('angle', 0, 20).optional(),
  }).optional(),
  spring: mapping({
    openTorque: quantity('torque', 0, 500, true).optional(),
    perTurn: quantity('torquePerTurn', 0, 500).optional(),
    hysteresis: quantity('share', 0, 0.5).optional(),
    pulls: pulls.optional(),
    strip: stripSchema.optional(),
    preload: quantity('turns', 0, 100, true).optional(),
  }).optional(),
  potentiometer: mapping({
    resistance: quantity('resistance', 100, 1e6).optional(),
    tolerance: quantity('share', 0, 0.5).optional(),
    electricalTravel: quantity('angle', 10, 3600).optional(),
    mechanicalTravel: quantity('angle', 10, 3600).optional(),
    linearity: quantity('share', 0, 0.2).optional(),
    drag: quantity('torque', 0, 100).optional(),
    usedCycles: whole(0, 1e9).optional(),
    ratedCycles: whole(1, 1e9).optional(),
  }).optional(),
  wiring: mapping({
    top: quantity('resistance', 0, 1e6).optional(),
    bottom: quantity('resistance', 0, 1e6).optional(),
    tolerance: quantity('share', 0, 0.5).optional(),
    pullDown: quantity('resistance', 0, 1e8).optional(),
    capacitor: quantity('capacitance', 0, 1e-4).optional(),
  }).optional(),
};

/** `eachFinger`: no pin, since no two fingers share one. */
export const eachFingerSchema = mapping(shape);
/** One entry of `fingers`: on a pin of its own or on an input of the multiplexer. */
export const fingerSchema = mapping({
  pin: pinNumber().optional(),
  channel: whole(0, 7, 'a multiplexer input').optional(),
  ...shape,
}).transform((block, ctx) => {
  if (block.pin === undefined && block.channel === undefined) {
    const params = { expected: ADC_PIN, next: 'add "pin"', instead: 'channel' };
    ctx.issues.push({ code: 'custom', input: block, path: ['pin'], message: ADC_PIN, params });
  } else if (block.pin !== undefined && block.channel !== undefined) {
    const expected = 'either a pin or an input of the multiplexer';
    const params = {
      seen: `${block.channel}, beside pin ${block.pin}`,
      expected,
      next: 'remove one of the two',
    };
    ctx.issues.push({ code: 'custom', input: block, path: ['channel'], message: expected, params });
  }
  return block;
});

export type FingerBlock = z.output<typeof eachFingerSchema>;
