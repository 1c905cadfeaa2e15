import { z } from 'zod';
import type { Settings } from '../../firmware/chain/settings.ts';
import { TautlineError } from '../../sim/errors.ts';

const positive = z.number().positive().max(1000);
const percent = z.number().positive().max(100);
const band = { widthPct: percent, stillPct: percent.optional() };

const settings = z.strictObject({
  oversampling: z.number().int().min(1).max(32),
  despike: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('median') }),
    z.strictObject({ kind: z.literal('clip'), limitPct: percent }),
  ]),
  lowPass: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('exponential'), cutoffHz: positive }),
    z.strictObject({
      kind: z.literal('oneEuro'),
      minCutoffHz: positive,
      beta: z.number().min(0).max(1000),
      speedCutoffHz: positive,
    }),
    z.strictObject({
      kind: z.literal('adaptive'),
      restCutoffHz: positive,
      riseHz: z.number().min(0).max(1000),
    }),
  ]),
  hysteresis: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('still'), widthPct: percent }),
    z.strictObject({ kind: z.literal('drag'), ...band }),
    z.strictObject({ kind: z.literal('step'), ...band }),
  ]),
});

/**
 * Settings that came from the page.
 * @throws TautlineError `settings/invalid`
 */
export function settingsOfPage(input: unknown): Settings {
  const parsed = settings.safeParse(input);
  if (parsed.success) return parsed.data as Settings;
  const first = parsed.error.issues[0]!;
  throw new TautlineError(
    'settings/invalid',
    `The page sent settings that are none: ${first.path.join('.')}: ${first.message}.`,
    {
      detail: 'Load the page again; nothing was written.',
    },
  );
}
