import { z } from 'zod';
import type { Oversampling, Settings } from '../../firmware/chain/settings.ts';
import { mapping, pushIssue, quantity, strict } from './field.ts';

/** `lowPass: none` is short for `lowPass: {kind: none}`. */
const asKind = (value: unknown) => (typeof value === 'string' ? { kind: value } : value);
const kind = <const T extends string>(name: T) => z.literal(name);
const cutoff = () => quantity('frequency', 0, 500, true);
const width = () => quantity('percent', 0, 50, true);

const OVERSAMPLING: Oversampling[] = [1, 2, 4, 8, 16, 32];

const oversampling = z.unknown().transform((input, ctx): Oversampling => {
  const found = OVERSAMPLING.find((count) => count === input);
  if (found !== undefined) return found;
  return pushIssue(ctx, input, {
    expected: 'one of 1, 2, 4, 8, 16, 32 readings',
    next: 'take the nearest of them',
  });
});

const despike = z.discriminatedUnion('kind', [
  strict({ kind: kind('none') }),
  strict({ kind: kind('clip'), limit: quantity('percent', 0, 100, true) }),
  strict({ kind: kind('median') }),
]);

const lowPass = z.discriminatedUnion('kind', [
  strict({ kind: kind('none') }),
  strict({ kind: kind('exponential'), cutoff: cutoff() }),
  strict({
    kind: kind('oneEuro'),
    minCutoff: cutoff(),
    beta: quantity('plain', 0, 1000),
    speedCutoff: cutoff(),
  }),
  strict({ kind: kind('adaptive'), restCutoff: cutoff(), rise: quantity('frequency', 0, 10_000) }),
]);

const hysteresis = z.discriminatedUnion('kind', [
  strict({ kind: kind('none') }),
  strict({ kind: kind('still'), width: width() }),
  strict({ kind: kind('drag'), width: width(), still: width().optional() }),
  strict({ kind: kind('step'), width: width(), still: width().optional() }),
]);

/** The `settings` block of a rig file: all four stages must be named. */
export const settingsSchema = mapping({
  oversampling,
  despike: z.preprocess(asKind, despike),
  lowPass: z.preprocess(asKind, lowPass),
  hysteresis: z.preprocess(asKind, hysteresis),
});

type SettingsBlock = z.output<typeof settingsSchema>;

function lowPassFrom(block: SettingsBlock['lowPass']): Settings['lowPass'] {
  switch (block.kind) {
    case 'none':
      return { kind: 'none' };
    case 'exponential':
      return { kind: block.kind, cutoffHz: block.cutoff };
    case 'oneEuro':
      return {
        kind: block.kind,
        minCutoffHz: block.minCutoff,
        beta: block.beta,
        speedCutoffHz: block.speedCutoff,
      };
    case 'adaptive':
      return { kind: block.kind, restCutoffHz: block.restCutoff, riseHz: block.rise };
  }
}

function hysteresisFrom(block: SettingsBlock['hysteresis']): Settings['hysteresis'] {
  if (block.kind === 'none') return { kind: 'none' };
  const { kind, width: widthPct } = block;
  return kind === 'still' || block.still === undefined
    ? { kind, widthPct }
    : { kind, widthPct, stillPct: block.still };
}

/** Settings of the chain from a block that the schema has passed. */
export function settingsFrom(block: SettingsBlock): Settings {
  const { despike, hysteresis } = block;
  return {
    oversampling: block.oversampling,
    despike: despike.kind === 'clip' ? { kind: 'clip', limitPct: despike.limit } : { kind: despike.kind },
    lowPass: lowPassFrom(block.lowPass),
    hysteresis: hysteresisFrom(hysteresis),
  };
}
